from django.urls import path

from fitting.views import makers, measures, patterns, stands, wearers

urlpatterns = [
    # quick comparison
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
    # comparisons and routes
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
]
