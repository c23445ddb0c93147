from importlib import import_module

from django.apps import AppConfig

# What a workroom holds of people and outfits, from below upwards.
KINDS = (
    "fitting.wearers.kinds",
    "fitting.outfits.kinds",
    "fitting.comparing.kinds",
    "fitting.pattern.kinds",
    "fitting.laying.kinds",
    "fitting.fittings.kinds",
    "fitting.planning.kinds",
    "fitting.dossier.kinds",
)


class FittingConfig(AppConfig):
    name = "fitting"

    def ready(self) -> None:
        for kinds in KINDS:
            import_module(kinds)
