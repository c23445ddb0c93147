from django.urls import path

from fitting.views import (
    comparisons,
    dossiers,
    garments,
    makers,
    measures,
    outfits,
    patterns,
    quick,
    routes,
    stands,
    wearers,
)

urlpatterns = [
    # quick comparison
    path("quick/", quick.quick_comparison, name="quick-comparison"),
    path("quick/keep/", quick.quick_keep, name="quick-keep"),
    # wearers and measures
    path("wearers/", wearers.wearer_list, name="wearer-list"),
    path("wearers/add/", wearers.wearer_add, name="wearer-add"),
    path("wearers/<int:pk>/", wearers.wearer_detail, name="wearer-detail"),
    path("wearers/<int:pk>/change/", wearers.wearer_change, name="wearer-change"),
    path("wearers/<int:pk>/export/", wearers.wearer_export, name="wearer-export"),
    path("wearers/<int:pk>/erase/", wearers.wearer_erase, name="wearer-erase"),
    path("wearers/<int:pk>/sheet/", wearers.wearer_sheet, name="wearer-sheet"),
    path("wearers/<int:pk>/measures/add/", measures.measures_add, name="measures-add"),
    path("measures/<int:pk>/", measures.measures_detail, name="measures-detail"),
    path("measures/<int:pk>/change/", measures.measures_change, name="measures-change"),
    path("measures/<int:pk>/delete/", measures.measures_delete, name="measures-delete"),
    path("measures/<int:pk>/confirm/", measures.measures_confirm, name="measures-confirm"),
    # outfits and garments
    path("outfits/", outfits.outfit_list, name="outfit-list"),
    path("outfits/add/", outfits.outfit_add, name="outfit-add"),
    path("outfits/<int:pk>/", outfits.outfit_detail, name="outfit-detail"),
    path("outfits/<int:pk>/change/", outfits.outfit_change, name="outfit-change"),
    path("outfits/<int:pk>/delete/", outfits.outfit_delete, name="outfit-delete"),
    path("outfits/<int:pk>/garments/add/", garments.garment_add, name="garment-add"),
    path("garments/<int:pk>/", garments.garment_detail, name="garment-detail"),
    path("garments/<int:pk>/change/", garments.garment_change, name="garment-change"),
    path("garments/<int:pk>/move/", garments.garment_move, name="garment-move"),
    path("garments/<int:pk>/delete/", garments.garment_delete, name="garment-delete"),
    # comparisons and routes
    path("garments/<int:pk>/compare/", comparisons.comparison_make, name="comparison-make"),
    path("comparisons/<int:pk>/", comparisons.comparison_detail, name="comparison-detail"),
    path("garments/<int:pk>/route/", routes.route_choose, name="route-choose"),
    path("routes/<int:pk>/outcome/", routes.route_outcome, name="route-outcome"),
    # makers, stands, patterns in hand
    path("limits/", makers.maker_change, name="maker-change"),
    path("stands/", stands.stand_list, name="stand-list"),
    path("stands/add/", stands.stand_add, name="stand-add"),
    path("stands/<int:pk>/change/", stands.stand_change, name="stand-change"),
    path("stands/<int:pk>/delete/", stands.stand_delete, name="stand-delete"),
    path("patterns/", patterns.pattern_list, name="pattern-list"),
    path("patterns/add/", patterns.pattern_add, name="pattern-add"),
    path("patterns/<int:pk>/change/", patterns.pattern_change, name="pattern-change"),
    path("patterns/<int:pk>/delete/", patterns.pattern_delete, name="pattern-delete"),
    # dossiers
    path("outfits/<int:pk>/dossiers/add/", dossiers.dossier_add, name="dossier-add"),
    path("dossiers/<int:pk>/", dossiers.dossier_detail, name="dossier-detail"),
    path("dossiers/<int:pk>/file/", dossiers.dossier_file, name="dossier-file"),
    path("dossiers/<int:pk>/again/", dossiers.dossier_again, name="dossier-again"),
    path("dossiers/<int:pk>/delete/", dossiers.dossier_delete, name="dossier-delete"),
]
