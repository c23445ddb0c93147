"""How one garment stands to another: entered on the page of either, shown on both."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.forms.relation import RelationFindForm, RelationForm
from catalogue.models.garment import ReferenceGarment
from catalogue.models.relation import Relation
from catalogue.workroom.actions import delete_for_a_while
from catalogue.workroom.guard import open_for_edit
from catalogue.workroom.views import tell_deleted


def relation_add(request: HttpRequest, pk: int) -> HttpResponse:
    """`?text=stays` narrows the garments that are offered."""
    reference = open_for_edit(ReferenceGarment, request, pk)
    find = RelationFindForm(request.GET)
    text = find.cleaned_data["text"] if find.is_valid() else ""
    form = RelationForm(request.POST or None, reference=reference, text=text)
    if form.is_valid():
        form.relation.save()
        messages.success(request, "Both garments show it now.")
        return redirect(reference)
    return render(
        request, "catalogue/relation_add.html", {"reference": reference, "find": find, "form": form}
    )


def relation_delete(request: HttpRequest, pk: int) -> HttpResponse:
    relation = open_for_edit(Relation, request, pk)
    if request.method == "POST":
        tell_deleted(request, delete_for_a_while(row=relation, by=request.user, at=timezone.now()))
        return redirect(relation.reference)
    return render(request, "catalogue/relation_delete.html", {"relation": relation})
