from django.urls import path

from catalogue.reading_room.views import archive, reference_list, references, side_by_side

urlpatterns = [
    path("references/", reference_list.reference_list, name="reference-list"),
    path("references/side-by-side/", side_by_side.side_by_side, name="side-by-side"),
    path("references/<int:pk>/", references.reference_detail, name="reference-detail"),
    path("references/<int:pk>/copy/", references.reference_copy, name="reference-copy"),
    path("questions/", references.question_list, name="question-list"),
    path("workroom/archive/", archive.archive_detail, name="archive-detail"),
    path("workroom/archive/exports/", archive.archive_export_add, name="archive-export-add"),
    path("workroom/archive/exports/<int:pk>/", archive.archive_export_detail, name="archive-export-detail"),
    path("workroom/archive/exports/<int:pk>/file/", archive.archive_export_file, name="archive-export-file"),
    path("workroom/archive/<slug:table>.csv", archive.archive_csv, name="archive-csv"),
    path("workroom/archive/imports/", archive.archive_import_add, name="archive-import-add"),
    path("workroom/archive/imports/<int:pk>/", archive.archive_import_detail, name="archive-import-detail"),
    path("workroom/archive/imports/<int:pk>/take/", archive.archive_import_take, name="archive-import-take"),
]
