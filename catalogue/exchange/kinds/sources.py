"""What an archive says of sources and citations."""

from catalogue.exchange.kinds.kind import LISTS, Kind
from catalogue.models.source import Citation, Source

SOURCE = Kind(
    model=Source,
    columns=("kind", "title", "authors", "date", "container", "editors", "volume", "issue", "pages",
             "edition", "publisher", "place", "identifier", "url", "accessed_on", "rights", "notes"),
)  # fmt: skip
CITATION = Kind(model=Citation, columns=("pages", "fact"), points_to={"source": "sources"})

LISTS["sources"] = SOURCE
