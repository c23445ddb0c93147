from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import open_for_edit, open_for_look
from fitting.fittings.actions import save_trial
from fitting.fittings.forms.trial import TrialForm, TrialMeasuresForm
from fitting.fittings.loading.trials import error_sentences, errors_of, forecasts, measured
from fitting.fittings.models.trial import Trial
from fitting.outfits.models.garment import Garment


def trial_add(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    return _type_trial(request, Trial(garment=garment), "fittings/trial_add.html")


def trial_change(request: HttpRequest, pk: int) -> HttpResponse:
    trial = open_for_edit(Trial.objects.for_detail_page(), request, pk)
    return _type_trial(request, trial, "fittings/trial_change.html")


def _type_trial(request: HttpRequest, trial: Trial, template: str) -> HttpResponse:
    garment = trial.garment
    errors = errors_of(garment.outfit.maker, without=trial if trial.pk else None)
    expected = forecasts(garment.comparisons.first(), garment.route_choices.first(), errors)
    typed = request.POST or None
    form = TrialForm(typed, instance=trial)
    table = TrialMeasuresForm(typed, trial=trial, forecasts=expected, user=request.user)
    if typed and form.is_valid() & table.is_valid():
        save_trial(trial, seams=form.cleaned_data.get("seams", ()), measures=table.measures())
        messages.success(request, f"Kept: {trial}")
        return redirect(trial)
    shown = {"trial": trial, "garment": garment, "form": form, "table": table}
    return render(request, template, shown)


def trial_detail(request: HttpRequest, pk: int) -> HttpResponse:
    trial = open_for_look(Trial.objects.for_detail_page(), request, pk)
    writing = Writing(system=request.user.system, denominator=request.user.denominator)
    shown = {
        "trial": trial,
        "garment": trial.garment,
        "measured": measured(trial),
        "sentences": error_sentences(errors_of(trial.garment.outfit.maker), writing),
    }
    return render(request, "fittings/trial_detail.html", shown)
