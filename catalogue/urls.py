from django.urls import path

from catalogue.finding.views import filter_delete, filter_save
from catalogue.photographs.views import (
    photo_add,
    photo_change,
    photo_close,
    photo_delete,
    photo_detail,
    photo_file,
    photo_list,
    photo_move,
    photo_part,
)
from catalogue.plates.views.pieces import (
    piece_add,
    piece_change,
    piece_delete,
    piece_start,
    seam_list,
    seam_propose,
)
from catalogue.plates.views.plates import (
    plate_add,
    plate_change,
    plate_delete,
    plate_detail,
    plate_enlarge,
    plate_readings,
)
from catalogue.references.views import (
    question_add,
    question_answer,
    question_change,
    question_delete,
    reference_add,
    reference_change,
    reference_citations,
    reference_delete,
    reference_measures,
    relation_add,
    relation_delete,
    study_add,
    study_sheet,
)
from catalogue.sources.views import (
    source_add,
    source_bibliography,
    source_change,
    source_delete,
    source_detail,
    source_export,
    source_import,
    source_list,
)
from catalogue.tracing.views.outlines import (
    outline_change,
    outline_onto_line,
    outlines_dxf,
    outlines_import,
    outlines_svg,
)
from catalogue.tracing.views.scans import (
    calibration_tile,
    scan_add,
    scan_again,
    scan_calibrate,
    scan_delete,
    scan_detail,
    scan_tile,
)
from catalogue.tracing.views.tracing import plate_trace, trace_keep, traced_readings
from catalogue.views.archive import archive_csv, archive_detail, archive_export, archive_import, archive_take
from catalogue.views.questions import question_list
from catalogue.views.reference_list import reference_list
from catalogue.views.references import reference_copy, reference_detail
from catalogue.views.side_by_side import side_by_side
from catalogue.workroom.views import (
    deleted_forget,
    deleted_list,
    deleted_restore,
    member_add,
    member_change,
    member_remove,
    member_sign_in_address,
    password_set,
    preferences,
    sign_in_once,
    workroom_detail,
    workroom_switch,
)

urlpatterns = [
    # people
    path("sign-in/once/<str:uid>/<str:token>/", sign_in_once, name="sign-in-once"),
    path("password/", password_set, name="password-set"),
    path("preferences/", preferences, name="preferences"),
    path("workroom/", workroom_detail, name="workroom-detail"),
    path("workroom/switch/", workroom_switch, name="workroom-switch"),
    path("members/add/", member_add, name="member-add"),
    path("members/<int:pk>/", member_change, name="member-change"),
    path("members/<int:pk>/remove/", member_remove, name="member-remove"),
    path("members/<int:pk>/sign-in-address/", member_sign_in_address, name="member-sign-in-address"),
    # sources
    path("sources/", source_list, name="source-list"),
    path("sources/add/", source_add, name="source-add"),
    path("sources/bibliography/", source_bibliography, name="source-bibliography"),
    path("sources/export/<slug:form>/", source_export, name="source-export"),
    path("sources/import/", source_import, name="source-import"),
    path("sources/<int:pk>/", source_detail, name="source-detail"),
    path("sources/<int:pk>/change/", source_change, name="source-change"),
    path("sources/<int:pk>/delete/", source_delete, name="source-delete"),
    # reference garments
    path("references/", reference_list, name="reference-list"),
    path("references/filters/save/", filter_save, name="filter-save"),
    path("references/filters/<int:pk>/delete/", filter_delete, name="filter-delete"),
    path("references/side-by-side/", side_by_side, name="side-by-side"),
    path("references/add/", reference_add, name="reference-add"),
    path("references/<int:pk>/", reference_detail, name="reference-detail"),
    path("references/<int:pk>/change/", reference_change, name="reference-change"),
    path("references/<int:pk>/citations/", reference_citations, name="reference-citations"),
    path("references/<int:pk>/measures/", reference_measures, name="reference-measures"),
    path("references/<int:pk>/copy/", reference_copy, name="reference-copy"),
    path("references/<int:pk>/delete/", reference_delete, name="reference-delete"),
    path("questions/", question_list, name="question-list"),
    path("references/<int:pk>/questions/add/", question_add, name="question-add"),
    path("questions/<int:pk>/change/", question_change, name="question-change"),
    path("questions/<int:pk>/answer/", question_answer, name="question-answer"),
    path("questions/<int:pk>/delete/", question_delete, name="question-delete"),
    path("references/<int:pk>/relations/add/", relation_add, name="relation-add"),
    path("relations/<int:pk>/delete/", relation_delete, name="relation-delete"),
    path("references/<int:pk>/study/sheet/", study_sheet, name="study-sheet"),
    path("references/<int:pk>/study/add/", study_add, name="study-add"),
    # plates, pieces, readings, seams
    path("references/<int:pk>/plates/add/", plate_add, name="plate-add"),
    path("plates/<int:pk>/", plate_detail, name="plate-detail"),
    path("plates/<int:pk>/readings/", plate_readings, name="plate-readings"),
    path("plates/<int:pk>/change/", plate_change, name="plate-change"),
    path("plates/<int:pk>/delete/", plate_delete, name="plate-delete"),
    path("plates/<int:pk>/enlarge/", plate_enlarge, name="plate-enlarge"),
    path("plates/<int:pk>/pieces/start/", piece_start, name="piece-start"),
    path("plates/<int:pk>/pieces/add/", piece_add, name="piece-add"),
    path("pieces/<int:pk>/change/", piece_change, name="piece-change"),
    path("pieces/<int:pk>/delete/", piece_delete, name="piece-delete"),
    path("plates/<int:pk>/seams/", seam_list, name="seam-list"),
    path("plates/<int:pk>/seams/propose/", seam_propose, name="seam-propose"),
    # scans, calibration, tracing
    path("plates/<int:pk>/scan/", scan_detail, name="scan-detail"),
    path("plates/<int:pk>/scan/add/", scan_add, name="scan-add"),
    path("plates/<int:pk>/scan/again/", scan_again, name="scan-again"),
    path("plates/<int:pk>/scan/delete/", scan_delete, name="scan-delete"),
    path("plates/<int:pk>/scan/calibrate/<slug:way>/", scan_calibrate, name="scan-calibrate"),
    path("scans/<int:pk>/tiles/<int:level>/<int:column>/<int:row>/", scan_tile, name="scan-tile"),
    path(
        "calibrations/<int:pk>/tiles/<int:level>/<int:column>/<int:row>/",
        calibration_tile,
        name="calibration-tile",
    ),
    path("plates/<int:pk>/trace/", plate_trace, name="plate-trace"),
    path("plates/<int:pk>/trace/keep/", trace_keep, name="trace-keep"),
    path("plates/<int:pk>/trace/readings/", traced_readings, name="traced-readings"),
    path("pieces/<int:pk>/outline/", outline_change, name="outline-change"),
    path("pieces/<int:pk>/outline/onto-line/", outline_onto_line, name="outline-onto-line"),
    path("plates/<int:pk>/outlines.svg", outlines_svg, name="outlines-svg"),
    path("plates/<int:pk>/outlines/import/", outlines_import, name="outlines-import"),
    path("plates/<int:pk>/outlines.dxf", outlines_dxf, name="outlines-dxf"),
    # photographs
    path("references/<int:pk>/photos/add/", photo_add, name="photo-add"),
    path("references/<int:pk>/photos/", photo_list, name="photo-list"),
    path("photos/<int:pk>/", photo_detail, name="photo-detail"),
    path("photos/<int:pk>/close/<int:column>/<int:row>/", photo_close, name="photo-close"),
    path("photos/<int:pk>/parts/<int:column>/<int:row>/", photo_part, name="photo-part"),
    path("photos/<int:pk>/move/", photo_move, name="photo-move"),
    path("photos/<int:pk>/change/", photo_change, name="photo-change"),
    path("photos/<int:pk>/delete/", photo_delete, name="photo-delete"),
    path("photos/<int:pk>/<int:size>/", photo_file, name="photo-file"),
    # what was deleted of late
    path("deleted/", deleted_list, name="deleted-list"),
    path("deleted/<int:pk>/restore/", deleted_restore, name="deleted-restore"),
    path("deleted/<int:pk>/forget/", deleted_forget, name="deleted-forget"),
    # out and in
    path("workroom/archive/", archive_detail, name="archive-detail"),
    path("workroom/archive/export/", archive_export, name="archive-export"),
    path("workroom/archive/<slug:table>.csv", archive_csv, name="archive-csv"),
    path("workroom/archive/import/", archive_import, name="archive-import"),
    path("workroom/archive/take/", archive_take, name="archive-take"),
]
