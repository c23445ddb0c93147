from django.urls import path

from catalogue.sources import views
from catalogue.sources.models import Source
from catalogue.workroom.views.deletion import row_delete

urlpatterns = [
    path("sources/", views.source_list, name="source-list"),
    path("sources/add/", views.source_add, name="source-add"),
    path("sources/bibliography/", views.source_bibliography, name="source-bibliography"),
    path("sources/export/<slug:form>/", views.source_export, name="source-export"),
    path("sources/import/", views.source_import, name="source-import"),
    path("sources/<int:pk>/", views.source_detail, name="source-detail"),
    path("sources/<int:pk>/change/", views.source_change, name="source-change"),
    path("sources/<int:pk>/delete/", row_delete, {"model": Source}, name="source-delete"),
]
