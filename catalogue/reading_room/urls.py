from django.urls import path

from catalogue.reading_room.views import archive, reference_list, references, side_by_side

urlpatterns = [
    path("references/", reference_list.reference_list, name="reference-list"),
    path("references/side-by-side/", side_by_side.side_by_side, name="side-by-side"),
    path("references/<int:pk>/", references.reference_detail, name="reference-detail"),
    path("references/<int:pk>/copy/", references.reference_copy, name="reference-copy"),
    path("questions/", references.question_list, name="question-list"),
    path("workroom/archive/", archive.archive_detail, name="archive-detail"),
    path("workroom/archive/export/", archive.archive_export, name="archive-export"),
    path("workroom/archive/<slug:table>.csv", archive.archive_csv, name="archive-csv"),
    path("workroom/archive/import/", archive.archive_import, name="archive-import"),
    path("workroom/archive/take/", archive.archive_take, name="archive-take"),
]
