from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.pattern.models import WorkNote
from fitting.pattern.views import exchange, sheets, work, working

urlpatterns = [
    path("garments/<int:pk>/work/", work.garment_work, name="garment-work"),
    path("garments/<int:pk>/work/<slug:kind>/", work.work_sheet, name="work-sheet"),
    path("work/<int:pk>/", work.work_note_detail, name="work-note-detail"),
    path("work/<int:pk>/delete/", row_delete, {"model": WorkNote}, name="work-note-delete"),
    path("garments/<int:pk>/pattern/", working.garment_pattern, name="garment-pattern"),
    path("garments/<int:pk>/pattern/begin/", working.pattern_begin, name="pattern-begin"),
    path("garments/<int:pk>/pattern/versions/", working.pattern_history, name="pattern-history"),
    path("garments/<int:pk>/pattern/steps/<slug:slug>/", working.pattern_step, name="pattern-step"),
    path("pattern-versions/<int:pk>/", working.pattern_version, name="pattern-version"),
    path("pattern-versions/<int:pk>/back/", working.pattern_back, name="pattern-back"),
    path("garments/<int:pk>/grade/", sheets.garment_grade, name="garment-grade"),
    path("garments/<int:pk>/sheets/", sheets.garment_sheets, name="garment-sheets"),
    path("garments/<int:pk>/sheets/file/", sheets.garment_sheets_file, name="garment-sheets-file"),
    path("garments/<int:pk>/pattern/bring-in/", exchange.pattern_bring_in, name="pattern-bring-in"),
    path("pattern-versions/<int:pk>/pattern.svg", exchange.pattern_version_svg, name="pattern-version-svg"),
    path("pattern-versions/<int:pk>/pattern.dxf", exchange.pattern_version_dxf, name="pattern-version-dxf"),
]
