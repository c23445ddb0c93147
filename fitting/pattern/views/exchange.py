"""A working pattern out as SVG and DXF at full size, and in again from an SVG as its next version."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify

from catalogue.tracing.showing.dxf import dxf_of
from catalogue.tracing.showing.svg import svg_of
from catalogue.workroom.guard import open_for_edit, open_for_look
from fitting.outfits.models.garment import Garment
from fitting.pattern.actions import MadeMeanwhile, bring_in
from fitting.pattern.exchange.kept_pattern import pattern_of_kept
from fitting.pattern.forms.version import BringInForm
from fitting.pattern.loading.garment_patterns import said_of
from fitting.pattern.loading.working import newest_version
from fitting.pattern.models import WorkingVersion
from fitting.pattern.showing.pattern_outlines import drawing_of_pattern


def pattern_version_svg(request: HttpRequest, pk: int) -> HttpResponse:
    version = open_for_look(WorkingVersion, request, pk)
    drawing = drawing_of_pattern(pattern_of_kept(version.pattern))
    title = f"{version.garment}, {said_of(version)}"
    return _file(svg_of(drawing, title), "image/svg+xml", version, "svg")


def pattern_version_dxf(request: HttpRequest, pk: int) -> HttpResponse:
    version = open_for_look(WorkingVersion, request, pk)
    return _file(
        dxf_of(drawing_of_pattern(pattern_of_kept(version.pattern))), "image/vnd.dxf", version, "dxf"
    )


def _file(text: str, kind: str, version: WorkingVersion, ending: str) -> HttpResponse:
    answer = HttpResponse(text, content_type=kind)
    name = f"{slugify(version.garment.name) or 'garment'}-version-{version.number}.{ending}"
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Cache-Control"] = "private, no-store"
    return answer


def pattern_bring_in(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    newest = newest_version(garment)
    number = newest.number if newest else 0
    form = BringInForm(request.POST or None, request.FILES or None, initial={"on": number})
    if form.is_valid():
        if version := _brought(request, garment, form, newest):
            return redirect("garment-pattern", version.garment_id)
        form.data = form.data.copy() | {"on": number}
    return render(request, "pattern/bring_in.html", {"garment": garment, "form": form, "newest": newest})


def _brought(
    request: HttpRequest, garment: Garment, form: BringInForm, newest: WorkingVersion | None
) -> WorkingVersion | None:
    """None where somebody made another version since the page was opened."""
    looked_at = garment.pattern_versions.filter(number=form.cleaned_data["on"]).first()
    try:
        version = bring_in(
            garment,
            form.read,
            file=form.file_name,
            on=looked_at,
            by=request.user,
            at=timezone.now(),
        )
    except MadeMeanwhile as meanwhile:
        form.add_error(None, f"{meanwhile} Look at it, then choose the file again.")
        return None
    left_out = ", ".join(f"{count} {what}" for what, count in form.read.left_out.items())
    messages.success(request, f"{version.said}{f' Not read: {left_out}.' if left_out else ''}")
    return version
