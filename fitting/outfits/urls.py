from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternInHand
from fitting.outfits.views import garments, log, outfits, patterns, shares

urlpatterns = [
    path("outfits/add/", outfits.outfit_add, name="outfit-add"),
    path("outfits/<int:pk>/change/", outfits.outfit_change, name="outfit-change"),
    path("outfits/<int:pk>/delete/", row_delete, {"model": Outfit}, name="outfit-delete"),
    path("outfits/<int:pk>/garments/add/", garments.garment_add, name="garment-add"),
    path("garments/<int:pk>/change/", garments.garment_change, name="garment-change"),
    path("garments/<int:pk>/move/", garments.garment_move, name="garment-move"),
    path("garments/<int:pk>/again/", garments.garment_again, name="garment-again"),
    path("garments/<int:pk>/delete/", row_delete, {"model": Garment}, name="garment-delete"),
    path("outfits/<int:pk>/log/", log.log_list, name="log-list"),
    path("outfits/<int:pk>/log/add/", log.log_add, name="log-add"),
    path("log/<int:pk>/change/", log.log_change, name="log-change"),
    path("log/<int:pk>/delete/", row_delete, {"model": LogEntry}, name="log-delete"),
    path("log/photos/<int:pk>/change/", log.log_photo_change, name="log-photo-change"),
    path("log/photos/<int:pk>/delete/", row_delete, {"model": LogPhoto}, name="log-photo-delete"),
    path("log/photos/<int:pk>/<int:size>/", log.log_photo_file, name="log-photo-file"),
    path("outfits/<int:pk>/materials/", outfits.material_list, name="material-list"),
    path("outfits/<int:pk>/materials/add/", outfits.material_add, name="material-add"),
    path("outfits/<int:pk>/shopping/", outfits.shopping_list, name="shopping-list"),
    path("materials/<int:pk>/change/", outfits.material_change, name="material-change"),
    path("materials/<int:pk>/delete/", row_delete, {"model": Material}, name="material-delete"),
    path("outfits/<int:pk>/shares/", shares.share_list, name="share-list"),
    path("outfits/<int:pk>/shares/add/", shares.share_add, name="share-add"),
    path("shares/<int:pk>/end/", shares.share_end, name="share-end"),
    path("shown/<str:secret>/", shares.shared_log, name="shared-log"),
    path("shown/<str:secret>/<int:pk>/<int:size>/", shares.shared_photo, name="shared-photo"),
    path("patterns/", patterns.pattern_list, name="pattern-list"),
    path("patterns/add/", patterns.pattern_add, name="pattern-add"),
    path("patterns/<int:pk>/", patterns.pattern_detail, name="pattern-detail"),
    path("patterns/<int:pk>/alter/", patterns.pattern_alter, name="pattern-alter"),
    path("patterns/<int:pk>/change/", patterns.pattern_change, name="pattern-change"),
    path("patterns/<int:pk>/delete/", row_delete, {"model": PatternInHand}, name="pattern-delete"),
]
