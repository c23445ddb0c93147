"""What an archive says of sources and citations."""

from catalogue.sources.models import Citation, Source
from catalogue.workroom.kinds import LISTS, Kind

SOURCE = Kind(
    model=Source,
    columns=("kind", "title", "authors", "date", "container", "editors", "volume", "issue", "pages",
             "edition", "publisher", "place", "identifier", "url", "accessed_on", "rights", "notes",
             "cite_key"),
)  # fmt: skip
CITATION = Kind(model=Citation, columns=("pages", "fact"), points_to={"source": "sources"})

LISTS["sources"] = SOURCE
