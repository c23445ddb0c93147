from django.apps import AppConfig


class FittingConfig(AppConfig):
    name = "fitting"

    def ready(self) -> None:
        from fitting.uses import register_uses

        register_uses()
