from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.dossier import views
from fitting.dossier.models import Dossier

urlpatterns = [
    path("outfits/<int:pk>/dossiers/", views.dossier_list, name="dossier-list"),
    path("outfits/<int:pk>/dossiers/add/", views.dossier_add, name="dossier-add"),
    path("dossiers/<int:pk>/", views.dossier_detail, name="dossier-detail"),
    path("dossiers/<int:pk>/file/", views.dossier_file, name="dossier-file"),
    path("dossiers/<int:pk>/delete/", row_delete, {"model": Dossier}, name="dossier-delete"),
]
