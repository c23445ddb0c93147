from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.wearers.models import Measures, Stand
from fitting.wearers.views import measures, people

urlpatterns = [
    path("wearers/", people.wearer_list, name="wearer-list"),
    path("wearers/add/", people.wearer_add, name="wearer-add"),
    path("wearers/<int:pk>/", people.wearer_detail, name="wearer-detail"),
    path("wearers/<int:pk>/change/", people.wearer_change, name="wearer-change"),
    path("wearers/<int:pk>/sheet/", people.wearer_sheet, name="wearer-sheet"),
    path("wearers/<int:pk>/measures/add/", measures.measures_add, name="measures-add"),
    path("measures/<int:pk>/", measures.measures_detail, name="measures-detail"),
    path("measures/<int:pk>/change/", measures.measures_change, name="measures-change"),
    path("measures/<int:pk>/delete/", row_delete, {"model": Measures}, name="measures-delete"),
    path("measures/<int:pk>/confirm/", measures.measures_confirm, name="measures-confirm"),
    path("limits/", people.maker_change, name="maker-change"),
    path("stands/", measures.stand_list, name="stand-list"),
    path("stands/add/", measures.stand_add, name="stand-add"),
    path("stands/<int:pk>/change/", measures.stand_change, name="stand-change"),
    path("stands/<int:pk>/delete/", row_delete, {"model": Stand}, name="stand-delete"),
]
