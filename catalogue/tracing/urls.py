from django.urls import path

from catalogue.tracing.models import PlateScan
from catalogue.tracing.views import outlines, scans, tracing
from catalogue.workroom.views.deletion import row_delete

urlpatterns = [
    path("plates/<int:pk>/scan/", scans.scan_detail, name="scan-detail"),
    path("plates/<int:pk>/scan/add/", scans.scan_add, name="scan-add"),
    path("plates/<int:pk>/scan/delete/", row_delete, {"model": PlateScan}, name="scan-delete"),
    path("plates/<int:pk>/scan/calibrate/<slug:way>/", scans.scan_calibrate, name="scan-calibrate"),
    path("scans/<int:pk>/tiles/<int:level>/<int:column>/<int:row>/", scans.scan_tile, name="scan-tile"),
    path(
        "calibrations/<int:pk>/tiles/<int:level>/<int:column>/<int:row>/",
        scans.calibration_tile,
        name="calibration-tile",
    ),
    path("plates/<int:pk>/trace/", tracing.plate_trace, name="plate-trace"),
    path("plates/<int:pk>/trace/keep/", tracing.trace_keep, name="trace-keep"),
    path("plates/<int:pk>/trace/level/", tracing.level_move, name="level-move"),
    path("plates/<int:pk>/trace/readings/", tracing.traced_readings, name="traced-readings"),
    path("pieces/<int:pk>/outline/", outlines.outline_change, name="outline-change"),
    path("pieces/<int:pk>/outline/onto-line/", outlines.outline_onto_line, name="outline-onto-line"),
    path("plates/<int:pk>/outlines.svg", outlines.outlines_svg, name="outlines-svg"),
    path("plates/<int:pk>/outlines/import/", outlines.outlines_import, name="outlines-import"),
    path("plates/<int:pk>/outlines.dxf", outlines.outlines_dxf, name="outlines-dxf"),
]
