"""What a workroom holds of plans."""

from catalogue.workroom.kinds import Kind, excuse, register
from fitting.planning.models import CalendarAddress, Task

register(Kind(model=Task, part_of="outfit"))
excuse("A secret address opens one house's door.", CalendarAddress)
