"""The working pattern of a garment: its newest version and those before; begun, changed, gone back."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import key_of, may_change, open_for_edit, open_for_look
from fitting.outfits.models.garment import Garment
from fitting.pattern.actions import MadeMeanwhile, begin_pattern, go_back, take_step
from fitting.pattern.exchange.kept_pattern import pattern_of_kept
from fitting.pattern.forms.step import StepForm
from fitting.pattern.forms.steps import STEP_FORMS, STEP_GROUPS, BeginForm
from fitting.pattern.loading.start import plates_of
from fitting.pattern.loading.wanted import Wanted, wanted_of
from fitting.pattern.loading.working import newest_version, what_has_changed, working_pattern
from fitting.pattern.models import WorkingVersion
from fitting.pattern.showing.pattern_drawn import draw_change, draw_pattern
from fitting.pattern.showing.pattern_page import broken, change_rows, line_rows, seam_rows, unmet

VERSIONS_SHOWN = 8
MEANWHILE = "Somebody made version {} meanwhile, so nothing was changed. Look at it, then say it again."


def garment_pattern(request: HttpRequest, pk: int) -> HttpResponse:
    """The newest version, or how to begin. Its figures are for those who see body measures."""
    garment = open_for_look(Garment.objects.for_detail_page(), request, pk)
    versions = garment.pattern_versions.for_history()
    page: dict[str, Any] = {"garment": garment, "may_change": may_change(request, garment)}
    if not page["may_change"]:
        return render(request, "pattern/working_reader.html", page | {"newest": versions.first()})
    working, now = working_pattern(garment), timezone.now()
    begin = BeginForm(plates=plates_of(garment), on=working and working.version)
    page |= {"begin": begin}
    if working is None:
        return render(request, "pattern/working_begin.html", page)
    wanted = wanted_of(garment, by=request.user, at=now)
    page |= _shown(request, working.version) | {
        "wanted": wanted,
        "changed_since": what_has_changed(working.version, by=request.user, at=now),
        "versions": versions[: VERSIONS_SHOWN + 1],
        "shown": VERSIONS_SHOWN,
        "groups": _groups(working.pattern),
    }
    page |= _figures(request, page["pattern"], wanted)
    page["broke"] = broken(working.version.broke, page["seams"])
    return render(request, "pattern/working_pattern.html", page)


def pattern_history(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    versions = list(garment.pattern_versions.for_history())
    newest = versions[0] if versions else None
    shown = {"garment": garment, "versions": versions, "version": newest}
    return render(request, "pattern/working_history.html", shown)


def pattern_version(request: HttpRequest, pk: int) -> HttpResponse:
    version = open_for_look(WorkingVersion.objects.select_related("garment__outfit", "made_by"), request, pk)
    newest = version.garment.pattern_versions.for_history().first()
    shown = _shown(request, version) | {"garment": version.garment, "newest": newest}
    figures = _figures(request, shown["pattern"], Wanted(lines={}))
    return render(request, "pattern/working_version.html", shown | figures)


@require_POST
def pattern_begin(request: HttpRequest, pk: int) -> HttpResponse:
    """From the page itself, or in one press from a comparison or a route, with the garment's own plate."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    newest, now = newest_version(garment), timezone.now()
    form = BeginForm(request.POST, plates=plates_of(garment), on=newest)
    if form.is_valid():
        try:
            version = begin_pattern(
                garment, form.cleaned_data["plates"], on=form.looked_at, by=request.user, at=now
            )
        except Faults as faults:
            form.add_error("plates", faults.faults[0].sentence)
        except MadeMeanwhile as other:
            return _made_meanwhile(request, garment, other)
        else:
            messages.success(request, f"The working pattern is begun: version {version.number}.")
            return redirect("garment-pattern", garment.pk)
    page = {"garment": garment, "begin": form, "may_change": True}
    return render(request, "pattern/working_begin.html", page)


@require_POST
def pattern_back(request: HttpRequest, pk: int) -> HttpResponse:
    """A new version with the pieces of this one."""
    version = open_for_edit(WorkingVersion.objects.select_related("garment__outfit"), request, pk)
    garment = version.garment
    looked_at = garment.pattern_versions.filter(pk=key_of(request.POST.get("on", ""))).first()
    try:
        made = go_back(looked_at or version, version, by=request.user, at=timezone.now())
    except MadeMeanwhile as other:
        return _made_meanwhile(request, garment, other)
    messages.success(request, f"Version {made.number} has the pieces of version {version.number}.")
    return redirect("garment-pattern", garment.pk)


def pattern_step(request: HttpRequest, pk: int, slug: str) -> HttpResponse:
    """Boxes, and once they are filled the pieces before and after; by POST with `take` the step is taken.

    Shown by POST as well as by GET: what is typed may be a body's measures, which no address should hold.
    """
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    if slug not in STEP_FORMS:
        raise Http404("There is no such step.")
    working, now = working_pattern(garment), timezone.now()
    if working is None:
        messages.info(request, "There is no working pattern yet: begin it first.")
        return redirect("garment-pattern", garment.pk)
    version = working.version
    wanted = wanted_of(garment, by=request.user, at=now)
    form = STEP_FORMS[slug](
        _given(request, STEP_FORMS[slug]), pattern=working.pattern, wanted=wanted, user=request.user
    )
    theirs = None
    if request.method == "POST" and "take" in request.POST:
        theirs = None if key_of(request.POST.get("on", "")) == version.pk else version
        if theirs is None and form.is_valid():
            try:
                made = take_step(version, form.step_asked, by=request.user, at=now)
            except MadeMeanwhile as other:
                theirs = other.newest
            else:
                messages.success(request, f"Version {made.number}: {made.said}")
                return redirect("garment-pattern", garment.pk)
    page = {"garment": garment, "form": form, "version": version, "theirs": theirs}
    return render(request, "pattern/working_step.html", page | _outcome(request, form))


def _given(request: HttpRequest, form: type[StepForm]) -> Any:
    """What was typed; None where the address names no box."""
    if request.method == "POST":
        return request.POST
    return request.GET if request.GET else None


def _groups(pattern: Any) -> list[tuple[str, list[tuple[type[StepForm], bool]]]]:
    """Every step, and whether the pattern has what it is about."""
    return [(name, [(form, form.can_be_taken(pattern)) for form in forms]) for name, forms in STEP_GROUPS]


def _writing(request: HttpRequest) -> Writing:
    return Writing(system=request.user.system, denominator=request.user.denominator)


def _shown(request: HttpRequest, version: WorkingVersion) -> dict[str, Any]:
    pattern, writing = pattern_of_kept(version.pattern), _writing(request)
    return {
        "version": version,
        "pattern": pattern,
        "pieces": draw_pattern(pattern, writing),
        "changes": change_rows(version.changed, writing),
    }


def _figures(request: HttpRequest, pattern: Any, wanted: Wanted) -> dict[str, Any]:
    writing = _writing(request)
    lines, seams = line_rows(pattern, wanted, writing), seam_rows(pattern, writing)
    return {"lines": lines, "seams": seams, "unmet": list(unmet(lines, seams))}


def _outcome(request: HttpRequest, form: StepForm) -> dict[str, Any]:
    """The pieces as they would be, and what that would change and break; the numbered pieces to say it by."""
    writing = _writing(request)
    page: dict[str, Any] = {"pieces": draw_pattern(form.pattern, writing, numbered=True)}
    if form.is_bound and form.is_valid() and form.outcome:
        after = form.outcome.pattern
        page |= {
            "after": draw_change(form.pattern, after, writing),
            "changes": change_rows(form.outcome.changed, writing),
            "broke": broken(form.outcome.broke, seam_rows(after, writing)),
        }
    return page


def _made_meanwhile(request: HttpRequest, garment: Garment, other: MadeMeanwhile) -> HttpResponse:
    messages.error(request, MEANWHILE.format(other.newest.number if other.newest else 1))
    return redirect("garment-pattern", garment.pk)
