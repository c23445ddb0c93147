"""Seams of the traced pieces of a garment, walked as drawn on the plate or as graded to the wearer."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from catalogue.plates.models.piece import Seam
from catalogue.tracing.calculation.tracing import TracedShape
from catalogue.workroom.models import User
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.grading.values import GradingJoin, run_mm
from fitting.pattern.calculation.motion import upright
from fitting.pattern.calculation.seam_walk import SeamTolerance, WalkedSeam
from fitting.pattern.calculation.sleeve_walk import is_sleeve, walk_seams
from fitting.pattern.loading.grading import graded_garment
from fitting.pattern.loading.traced_plate import TracedPlate, traced_seams

DRAWN, GRADED = "as drawn", "graded"


@dataclass(frozen=True, kw_only=True)
class TracedGarment:
    """A garment's traced plate. Grading is done when it is asked for: most sheets never ask."""

    garment: Garment
    plate: TracedPlate
    by: User
    at: datetime

    @cached_property
    def shapes(self) -> Mapping[str, Sequence[TracedShape]]:
        """The pieces, grain upright, as drawn and, where they can be graded, graded."""
        drawn = {shape.name: shape for shape in self.plate.shapes.values()}
        graded = graded_garment(self.garment, self.plate, by=self.by, at=self.at)
        made = {DRAWN: drawn, GRADED: {**drawn, **graded.shapes}} if graded.grading else {DRAWN: drawn}
        return {how: [upright(shape)[0] for shape in of.values()] for how, of in made.items()}

    @cached_property
    def seams(self) -> Sequence[tuple[Seam, GradingJoin]]:
        return traced_seams(self.plate)

    def lengths_mm(self) -> dict[int, tuple[float, float]]:
        """Both sides of each seam as drawn, by the key of its row."""
        edges = {
            (shape.name, edge): mm
            for shape in self.plate.shapes.values()
            for edge, mm in shape.edges_mm().items()
        }
        return {seam.pk: (run_mm(edges, join.one), run_mm(edges, join.other)) for seam, join in self.seams}

    @property
    def best(self) -> str:
        """How the pieces are taken unless the maker says: graded, where they can be."""
        return GRADED if GRADED in self.shapes else DRAWN

    def walked(self, how: str, allowed: Sequence[SeamTolerance]) -> tuple[WalkedSeam, ...]:
        return walk_seams(self.shapes[how], [join for _, join in self.seams], allowed)

    def allowed_by_plate(self) -> list[SeamTolerance]:
        """The ease that the plate itself has, where it is known that one edge is eased on to the other."""
        drawn = self.walked(DRAWN, [SeamTolerance()] * len(self.seams))
        return [
            SeamTolerance(ease_mm=walked.seam.longer_mm - walked.seam.shorter_mm if seam.is_eased else 0.0)
            for (seam, _), walked in zip(self.seams, drawn, strict=True)
        ]

    def sleeve(self) -> WalkedSeam | None:
        """Its sleeve in its armhole, where the pitch points are known."""
        walked = self.walked(self.best, self.allowed_by_plate())
        return next((one for one in walked if is_sleeve(one.join) and not one.note), None)
