from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import LoginView, LogoutView
from django.urls import include, path

SUBJECTS = (
    "catalogue.workroom",
    "catalogue.sources",
    "catalogue.references",
    "catalogue.photographs",
    "catalogue.plates",
    "catalogue.tracing",
    "catalogue.finding",
    "catalogue.reading_room",
    "fitting.wearers",
    "fitting.outfits",
    "fitting.comparing",
    "fitting.pattern",
    "fitting.laying",
    "fitting.fittings",
    "fitting.planning",
    "fitting.dossier",
    "fitting.bench",
)

handler500 = "catalogue.workroom.faults.fault_page"
urlpatterns = [
    path(
        "sign-in/",
        login_not_required(LoginView.as_view(template_name="registration/sign_in.html")),
        name="sign-in",
    ),
    path("sign-out/", LogoutView.as_view(), name="sign-out"),
    *(path("", include(f"{subject}.urls")) for subject in SUBJECTS),
]
