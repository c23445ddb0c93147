"""What a workroom holds of plans."""

from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.kinds import Kind, excuse, register
from fitting.outfits.showing import OUTFITS
from fitting.planning.models import CalendarAddress, Task

register(Kind(model=Task, part_of="outfit"))
excuse("A secret address opens one house's door.", CalendarAddress)
register_deletions(
    Deletion(
        model=Task,
        name="“{row}”",
        way=lambda task: [OUTFITS, task.outfit, ("Tasks and plan", "task-list", task.outfit_id)],
        says="Log entries that name it stay, with their hours.",
    ),
)
