"""What an archive says of saved filters."""

from catalogue.exchange.kinds.kind import LISTS, Kind
from catalogue.models.saved_filter import SavedFilter

SAVED_FILTER = Kind(model=SavedFilter, columns=("name", "query"))

LISTS["saved_filters"] = SAVED_FILTER
