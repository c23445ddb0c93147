from importlib import import_module

from django.apps import AppConfig

from catalogue.workroom import faults

# What a workroom holds, told by each subject. From below upwards: a kind names itself as a part of another.
KINDS = (
    "catalogue.sources.kinds",
    "catalogue.references.kinds",
    "catalogue.photographs.kinds",
    "catalogue.plates.kinds",
    "catalogue.tracing.kinds",
    "catalogue.finding.kinds",
)


class CatalogueConfig(AppConfig):
    name = "catalogue"

    def ready(self) -> None:
        for kinds in KINDS:
            import_module(kinds)
        import_module("catalogue.workroom.files").watch_rows()
        faults.listen()
