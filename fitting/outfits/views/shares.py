"""A log shown by a secret address: chosen, made, ended; and the page that whoever has it sees."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.photographs.views import NOT_KEPT, picture_of_size
from catalogue.workroom.guard import key_of, open_for_edit
from fitting.outfits.actions import end_share, make_share
from fitting.outfits.calculation.discretion import words_for_anybody
from fitting.outfits.forms.outfit import ShareForm
from fitting.outfits.loading.outfit import entries_shared, names_hidden, photos_shared
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share


def share_list(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    shares = outfit.shares.prefetch_related("entries", "photos").select_related("made_by")
    shown = {
        "outfit": outfit,
        "shares": shares,
        "now": timezone.now(),
        "fresh": request.session.pop("fresh_share", None),
    }
    return render(request, "outfits/share_list.html", shown)


def share_add(request: HttpRequest, pk: int) -> HttpResponse:
    """Each entry stands there as a stranger would read it."""
    outfit = open_for_edit(Outfit.objects.select_related("wearer"), request, pk)
    share = Share(outfit=outfit, made_by=request.user)
    form = ShareForm(request.POST or None, instance=share, outfit=outfit)
    if form.is_valid():
        share.expires_at = form.expires_at(timezone.now())
        secret = make_share(share, entries=form.cleaned_data["entries"], photos=form.cleaned_data["photos"])
        address = reverse("shared-log", args=[secret])
        request.session["fresh_share"] = request.build_absolute_uri(address)
        return redirect("share-list", outfit.pk)
    chosen = set(map(key_of, request.POST.getlist("entries")))
    chosen_photos = set(map(key_of, request.POST.getlist("photos")))
    names = names_hidden(share)
    rows = [
        (entry, words_for_anybody(entry.text, names), entry.pk in chosen)
        for entry in outfit.log.prefetch_related("photos")
    ]
    shown = {"outfit": outfit, "form": form, "rows": rows, "chosen_photos": chosen_photos}
    return render(request, "outfits/share_add.html", shown)


@require_POST
def share_end(request: HttpRequest, pk: int) -> HttpResponse:
    share = open_for_edit(Share, request, pk)
    end_share(share, at=timezone.now())
    messages.success(request, "Ended: the address opens nothing any more.")
    return redirect("share-list", share.outfit_id)


@login_not_required
@require_safe
def shared_log(request: HttpRequest, secret: str) -> HttpResponse:
    """For whoever has the address. Nothing of the workroom stands on it but what was chosen."""
    share = _opened(secret)
    shown = {
        "share": share,
        "secret": secret,
        "name": words_for_anybody(share.outfit.name, names_hidden(share)),
        "wearer": share.outfit.wearer if share.wearer_agrees else None,
        "entries": entries_shared(share),
    }
    return _private(render(request, "outfits/shared_log.html", shown))


@login_not_required
@require_safe
def shared_photo(request: HttpRequest, secret: str, pk: int, size: int) -> HttpResponse:
    share = _opened(secret)
    photo = next((one for one in photos_shared(share) if one.pk == pk), None)
    if photo is None:
        raise Http404("This picture is not shown here.")
    return _private(picture_of_size(photo, size, cache=NOT_KEPT))


def _opened(secret: str) -> Share:
    shares = Share.objects.select_related("outfit__wearer", "outfit__workroom").opened_by(
        secret, at=timezone.now()
    )
    share = get_object_or_404(shares)
    timezone.activate(share.outfit.workroom.zone)
    return share


def _private(answer: HttpResponse) -> HttpResponse:
    # An address that is the key must not travel on to other sites, nor be kept or found by anybody else.
    answer["Referrer-Policy"] = "no-referrer"
    answer["Cache-Control"] = NOT_KEPT
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer
