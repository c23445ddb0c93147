from django.urls import path

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.plates.views import pieces, plates
from catalogue.workroom.views.deletion import row_delete

urlpatterns = [
    path("references/<int:pk>/plates/add/", plates.plate_add, name="plate-add"),
    path("plates/<int:pk>/", plates.plate_detail, name="plate-detail"),
    path("plates/<int:pk>/readings/", plates.plate_readings, name="plate-readings"),
    path("plates/<int:pk>/change/", plates.plate_change, name="plate-change"),
    path("plates/<int:pk>/delete/", row_delete, {"model": Plate}, name="plate-delete"),
    path("plates/<int:pk>/enlarge/", plates.plate_enlarge, name="plate-enlarge"),
    path("plates/<int:pk>/pieces/start/", pieces.piece_start, name="piece-start"),
    path("plates/<int:pk>/pieces/add/", pieces.piece_add, name="piece-add"),
    path("pieces/<int:pk>/change/", pieces.piece_change, name="piece-change"),
    path("pieces/<int:pk>/delete/", row_delete, {"model": Piece}, name="piece-delete"),
    path("plates/<int:pk>/seams/", pieces.seam_list, name="seam-list"),
    path("plates/<int:pk>/seams/propose/", pieces.seam_propose, name="seam-propose"),
]
