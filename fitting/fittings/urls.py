from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial
from fitting.fittings.views import alterations, fittings, observations, trials

urlpatterns = [
    path("fittings/", fittings.fitting_list, name="fitting-list"),
    path("outfits/<int:pk>/fitting/plan/", fittings.fitting_plan, name="fitting-plan"),
    path("fittings/<int:pk>/", fittings.fitting_detail, name="fitting-detail"),
    path("fittings/<int:pk>/change/", fittings.fitting_change, name="fitting-change"),
    path("fittings/<int:pk>/delete/", row_delete, {"model": Fitting}, name="fitting-delete"),
    path("fittings/<int:pk>/hold/", fittings.fitting_hold, name="fitting-hold"),
    path("fittings/hold-worker.js", fittings.fitting_hold_worker, name="fitting-hold-worker"),
    path("fittings/<int:pk>/type-up/", fittings.fitting_type_up, name="fitting-type-up"),
    path("fittings/<int:pk>/close/", fittings.fitting_close, name="fitting-close"),
    path("fittings/<int:pk>/reopen/", fittings.fitting_reopen, name="fitting-reopen"),
    path("observations/<int:pk>/change/", observations.observation_change, name="observation-change"),
    path("observations/<int:pk>/delete/", row_delete, {"model": Observation}, name="observation-delete"),
    path("observations/<int:pk>/drop/", observations.observation_drop, name="observation-drop"),
    path("observations/<int:pk>/photos/", observations.observation_photo_add, name="observation-photo-add"),
    path(
        "observations/photos/<int:pk>/",
        row_delete,
        {"model": ObservationPhoto},
        name="observation-photo-delete",
    ),
    path(
        "observations/photos/<int:pk>/<int:size>/",
        observations.observation_photo_file,
        name="observation-photo-file",
    ),
    path("garments/<int:pk>/alterations/add/", alterations.alteration_add, name="alteration-add"),
    path("alterations/<int:pk>/change/", alterations.alteration_change, name="alteration-change"),
    path("alterations/<int:pk>/delete/", row_delete, {"model": Alteration}, name="alteration-delete"),
    path("alterations/<int:pk>/tick/", alterations.alteration_tick, name="alteration-tick"),
    path("garments/<int:pk>/inlays/", alterations.inlay_list, name="inlay-list"),
    path("garments/<int:pk>/trials/add/", trials.trial_add, name="trial-add"),
    path("trials/<int:pk>/", trials.trial_detail, name="trial-detail"),
    path("trials/<int:pk>/change/", trials.trial_change, name="trial-change"),
    path("trials/<int:pk>/delete/", row_delete, {"model": Trial}, name="trial-delete"),
]
