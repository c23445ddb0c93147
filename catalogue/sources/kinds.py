"""What a workroom holds of sources."""

from catalogue.sources.models import Citation, Source
from catalogue.workroom.kinds import Kind, register

register(Kind(model=Source, name="sources"), Kind(model=Citation, part_of="reference"))
