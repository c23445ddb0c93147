"""What an archive says of saved filters."""

from catalogue.models.saved_filter import SavedFilter
from catalogue.workroom.kinds import LISTS, Kind

SAVED_FILTER = Kind(model=SavedFilter, columns=("name", "query"))

LISTS["saved_filters"] = SAVED_FILTER
