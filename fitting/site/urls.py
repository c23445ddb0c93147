from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import LogoutView
from django.urls import include, path
from django.views.generic import TemplateView

from catalogue.workroom.views.sign_in import SignIn

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

handler400 = "fitting.site.security.refusal"
handler500 = "catalogue.workroom.faults.fault_page"
urlpatterns = [
    path("sign-in/", login_not_required(SignIn.as_view()), name="sign-in"),
    # A proxy that turns an upload away shows this page.
    path("too-much/", login_not_required(TemplateView.as_view(template_name="413.html")), name="too-much"),
    path("sign-out/", LogoutView.as_view(), name="sign-out"),
    *(path("", include(f"{subject}.urls")) for subject in SUBJECTS),
]
