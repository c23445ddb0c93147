from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import LoginView, LogoutView
from django.urls import include, path

from fitting.bench.views import home

urlpatterns = [
    path("", home, name="home"),
    path(
        "sign-in/",
        login_not_required(LoginView.as_view(template_name="registration/sign_in.html")),
        name="sign-in",
    ),
    path("sign-out/", LogoutView.as_view(), name="sign-out"),
    path("", include("catalogue.urls")),
    path("", include("fitting.urls")),
]
