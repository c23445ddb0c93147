from django.http import Http404, HttpRequest, HttpResponse
from django.utils.text import slugify

from catalogue.drawn_outlines.drawing import Drawing, traced_drawing
from catalogue.drawn_outlines.dxf import dxf_of
from catalogue.drawn_outlines.svg import svg_of
from catalogue.plates.models.plate import Plate
from catalogue.workroom.guard import open_for_look


def outlines_svg(request: HttpRequest, pk: int) -> HttpResponse:
    plate, drawing = _drawing_for_look(request, pk)
    return _file(svg_of(drawing, str(plate)), "image/svg+xml", f"{slugify(str(plate))}.svg")


def outlines_dxf(request: HttpRequest, pk: int) -> HttpResponse:
    plate, drawing = _drawing_for_look(request, pk)
    return _file(dxf_of(drawing), "image/vnd.dxf", f"{slugify(str(plate))}.dxf")


def _drawing_for_look(request: HttpRequest, pk: int) -> tuple[Plate, Drawing]:
    plate = open_for_look(Plate, request, pk)
    drawing = traced_drawing(plate)
    if drawing is None:
        raise Http404("Nothing is traced on this plate yet.")
    return plate, drawing


def _file(text: str, kind: str, name: str) -> HttpResponse:
    answer = HttpResponse(text, content_type=kind)
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Cache-Control"] = "private, no-store"
    return answer
