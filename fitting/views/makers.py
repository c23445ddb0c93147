from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.workroom.guard import workroom_for_edit
from fitting.actions.maker import save_maker
from fitting.forms.maker import MakerForm
from fitting.models.maker import Maker


def maker_change(request: HttpRequest) -> HttpResponse:
    """A person's own limits, skills and hours: nobody else opens them, whatever workroom they share."""
    workroom_for_edit(request)
    maker = Maker.objects.filter(user=request.user).first() or Maker(user=request.user)
    form = MakerForm(request.POST or None, instance=maker, user=request.user)
    if form.is_valid():
        save_maker(maker, skills=form.skills())
        messages.success(request, "Your limits and skills are saved. New comparisons use them.")
        return redirect("maker-change")
    return render(request, "fitting/maker_change.html", {"form": form})
