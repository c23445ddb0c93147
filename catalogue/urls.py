from django.urls import path

from catalogue.views import (
    archive,
    people,
    photos,
    pieces,
    plates,
    reference_list,
    references,
    seams,
    side_by_side,
    sources,
)

urlpatterns = [
    # people
    path("sign-in/once/<str:uid>/<str:token>/", people.sign_in_once, name="sign-in-once"),
    path("password/", people.password_set, name="password-set"),
    path("preferences/", people.preferences, name="preferences"),
    path("workroom/", people.workroom_detail, name="workroom-detail"),
    path("workroom/switch/", people.workroom_switch, name="workroom-switch"),
    path("members/add/", people.member_add, name="member-add"),
    path("members/<int:pk>/", people.member_change, name="member-change"),
    path("members/<int:pk>/remove/", people.member_remove, name="member-remove"),
    path("members/<int:pk>/sign-in-address/", people.member_sign_in_address, name="member-sign-in-address"),
    # sources
    path("sources/", sources.source_list, name="source-list"),
    path("sources/add/", sources.source_add, name="source-add"),
    path("sources/<int:pk>/", sources.source_detail, name="source-detail"),
    path("sources/<int:pk>/change/", sources.source_change, name="source-change"),
    path("sources/<int:pk>/delete/", sources.source_delete, name="source-delete"),
    # reference garments
    path("references/", reference_list.reference_list, name="reference-list"),
    path("references/filters/save/", reference_list.filter_save, name="filter-save"),
    path("references/filters/<int:pk>/delete/", reference_list.filter_delete, name="filter-delete"),
    path("references/side-by-side/", side_by_side.side_by_side, name="side-by-side"),
    path("references/add/", references.reference_add, name="reference-add"),
    path("references/<int:pk>/", references.reference_detail, name="reference-detail"),
    path("references/<int:pk>/change/", references.reference_change, name="reference-change"),
    path("references/<int:pk>/citations/", references.reference_citations, name="reference-citations"),
    path("references/<int:pk>/measures/", references.reference_measures, name="reference-measures"),
    path("references/<int:pk>/delete/", references.reference_delete, name="reference-delete"),
    # plates, pieces, readings, seams
    path("references/<int:pk>/plates/add/", plates.plate_add, name="plate-add"),
    path("plates/<int:pk>/", plates.plate_detail, name="plate-detail"),
    path("plates/<int:pk>/readings/", plates.plate_readings, name="plate-readings"),
    path("plates/<int:pk>/change/", plates.plate_change, name="plate-change"),
    path("plates/<int:pk>/delete/", plates.plate_delete, name="plate-delete"),
    path("plates/<int:pk>/enlarge/", plates.plate_enlarge, name="plate-enlarge"),
    path("plates/<int:pk>/pieces/start/", pieces.piece_start, name="piece-start"),
    path("plates/<int:pk>/pieces/add/", pieces.piece_add, name="piece-add"),
    path("pieces/<int:pk>/change/", pieces.piece_change, name="piece-change"),
    path("pieces/<int:pk>/delete/", pieces.piece_delete, name="piece-delete"),
    path("plates/<int:pk>/seams/", seams.seam_list, name="seam-list"),
    path("plates/<int:pk>/seams/propose/", seams.seam_propose, name="seam-propose"),
    # photographs
    path("references/<int:pk>/photos/add/", photos.photo_add, name="photo-add"),
    path("photos/<int:pk>/change/", photos.photo_change, name="photo-change"),
    path("photos/<int:pk>/delete/", photos.photo_delete, name="photo-delete"),
    path("photos/<int:pk>/<int:size>/", photos.photo_file, name="photo-file"),
    # out and in
    path("workroom/archive/", archive.archive_detail, name="archive-detail"),
    path("workroom/archive/export/", archive.archive_export, name="archive-export"),
    path("workroom/archive/<slug:table>.csv", archive.archive_csv, name="archive-csv"),
    path("workroom/archive/import/", archive.archive_import, name="archive-import"),
    path("workroom/archive/take/", archive.archive_take, name="archive-take"),
]
