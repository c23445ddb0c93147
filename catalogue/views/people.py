from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.sign_in import user_of_one_time


@login_not_required
def sign_in_once(request: HttpRequest, uid: str, token: str) -> HttpResponse:
    """A page with one button: a preview of the address by a chat program must not spend it."""
    user = user_of_one_time(uid, token)
    if user is None:
        return render(request, "registration/sign_in_spent.html", status=410)
    if request.method == "POST":
        login(request, user)
        return redirect("home")
    return render(request, "registration/sign_in_once.html", {"person": user})
