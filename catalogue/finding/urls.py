from django.urls import path

from catalogue.finding import views
from catalogue.finding.models import SavedFilter
from catalogue.workroom.views.deletion import row_delete

urlpatterns = [
    path("references/filters/save/", views.filter_save, name="filter-save"),
    path("references/filters/<int:pk>/delete/", row_delete, {"model": SavedFilter}, name="filter-delete"),
]
