"""Alterations of a garment, their ticks, and the inlay they are checked against."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import key_of, open_for_edit
from fitting.fittings.actions import save_alteration, tick_alteration
from fitting.fittings.forms.alteration import AlterationForm, Inlays, edges_known
from fitting.fittings.loading.alterations import alterations_of
from fitting.fittings.models.alteration import Alteration, AlterationPart
from fitting.outfits.models.garment import Garment


def alteration_add(request: HttpRequest, pk: int) -> HttpResponse:
    """`?observation=7` starts from what was seen, and leads back to closing its fitting."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    observation = garment.observations.filter(pk=key_of(request.GET.get("observation", ""))).first()
    alteration = Alteration(garment=garment, observation=observation)
    form = AlterationForm(request.POST or None, instance=alteration, user=request.user)
    if form.is_valid():
        save_alteration(alteration, parts=form.cleaned_data["parts"], by=request.user, at=timezone.now())
        _say_whether_it_can_be_let_out(request, alteration)
        return redirect("fitting-close", observation.fitting_id) if observation else redirect(alteration)
    shown = {"garment": garment, "observation": observation, "form": form, "edges": edges_known(garment)}
    return render(request, "fittings/alteration_add.html", shown)


def alteration_change(request: HttpRequest, pk: int) -> HttpResponse:
    alteration = open_for_edit(Alteration.objects.with_parts(), request, pk)
    form = AlterationForm(request.POST or None, instance=alteration, user=request.user)
    if form.is_valid():
        save_alteration(alteration, parts=form.cleaned_data["parts"], by=request.user, at=timezone.now())
        _say_whether_it_can_be_let_out(request, alteration)
        return redirect(alteration)
    shown = {"alteration": alteration, "form": form, "edges": edges_known(alteration.garment)}
    return render(request, "fittings/alteration_change.html", shown)


def _say_whether_it_can_be_let_out(request: HttpRequest, alteration: Alteration) -> None:
    garment = Garment.objects.prefetch_related("alterations__parts", "inlays").get(pk=alteration.garment_id)
    open_now = alterations_of(garment).open
    if all(one.is_enough for one in open_now if one.alteration.pk == alteration.pk):
        messages.success(request, f"Kept: {alteration}")
    else:
        messages.warning(
            request, f"Kept: {alteration}. The inlay left is less: recut the piece, or piece it."
        )


@require_POST
def alteration_tick(request: HttpRequest, pk: int) -> HttpResponse:
    """`part` is done today; with `undo`, not done after all."""
    alteration = open_for_edit(Alteration.objects.with_parts(), request, pk)
    part = request.POST.get("part", "")
    if part in AlterationPart.Place.values:
        on = None if "undo" in request.POST else timezone.localdate()
        tick_alteration(alteration, part=part, on=on)
    return redirect(alteration)


def inlay_list(request: HttpRequest, pk: int) -> HttpResponse:
    """The allowances that a garment was cut with, and what each seam can still give."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    rows = Inlays(request.POST or None, instance=garment, form_kwargs={"user": request.user})
    if request.method == "POST" and rows.is_valid():
        rows.save()
        messages.success(request, "The inlays are kept.")
        return redirect(garment)
    shown = {"garment": garment, "rows": rows, "edges": edges_known(garment)}
    return render(request, "fittings/inlay_list.html", shown)
