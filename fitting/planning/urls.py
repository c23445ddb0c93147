from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.planning import views
from fitting.planning.models import Task

urlpatterns = [
    path("outfits/<int:pk>/tasks/", views.task_list, name="task-list"),
    path("outfits/<int:pk>/tasks/start/", views.task_start, name="task-start"),
    path("outfits/<int:pk>/tasks/add/", views.task_add, name="task-add"),
    path("tasks/<int:pk>/change/", views.task_change, name="task-change"),
    path("tasks/<int:pk>/done/", views.task_done, name="task-done"),
    path("tasks/<int:pk>/delete/", row_delete, {"model": Task}, name="task-delete"),
    path("calendar/", views.calendar_detail, name="calendar-detail"),
    path("calendar/<str:secret>.ics", views.calendar_feed, name="calendar-feed"),
]
