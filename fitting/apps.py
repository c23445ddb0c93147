from django.apps import AppConfig


class FittingConfig(AppConfig):
    name = "fitting"

    def ready(self) -> None:
        from fitting.outfits.kinds import register_uses

        register_uses()
