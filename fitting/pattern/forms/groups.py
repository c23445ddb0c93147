"""The sheets of pattern work, in the groups in which a garment's page lists them."""

from collections.abc import Mapping

from fitting.pattern.forms.alteration import AlterationSheet
from fitting.pattern.forms.fullness import GathersSheet, PleatsSheet, TiersSheet, TucksSheet
from fitting.pattern.forms.seams import SeamsSheet, SleeveSheet
from fitting.pattern.forms.sheet import WorkSheet
from fitting.pattern.forms.skirts import CircleSheet, GoresSheet, SupportSheet
from fitting.pattern.forms.trimming import BiasSheet, BoningSheet, FasteningSheet, PipingSheet, SewingSheet

__all__ = ["GROUPS", "SHEETS", "WorkSheet"]

GROUPS: tuple[tuple[str, tuple[type[WorkSheet], ...]], ...] = (
    ("Alter and join", (AlterationSheet, SeamsSheet, SleeveSheet)),
    ("Fullness and pleats", (GathersSheet, PleatsSheet, TucksSheet, TiersSheet)),
    ("Skirts", (CircleSheet, GoresSheet, SupportSheet)),
    ("Bias, bones and fastenings", (BiasSheet, PipingSheet, BoningSheet, FasteningSheet)),
    ("Time", (SewingSheet,)),
)

SHEETS: Mapping[str, type[WorkSheet]] = {sheet.kind.value: sheet for _, group in GROUPS for sheet in group}
