"""Seams of a garment walked: of its working pattern, else of its plate as drawn or graded to the wearer."""

from abc import abstractmethod
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
from fitting.pattern.calculation.seam_walk import SeamTolerance, WalkedSeam, named
from fitting.pattern.calculation.sleeve_walk import is_sleeve, walk_seams
from fitting.pattern.loading.garment_patterns import (
    DRAWN,
    GRADED,
    WORKING,
    is_grading_ruled_out,
    joins_of_pattern,
    said_of,
)
from fitting.pattern.loading.grading import graded_garment
from fitting.pattern.loading.traced_plate import TracedPlate, traced_seams
from fitting.pattern.loading.working import WorkingPattern


class WalkableSeams:
    """Pieces with their grain upright, and what is sewn to what.

    `said`: how the pieces can be taken, and what that is called; `named_joins`: each seam with its name.
    """

    said: Mapping[str, str]
    shapes: Mapping[str, Sequence[TracedShape]]
    named_joins: Sequence[tuple[str, GradingJoin]]

    @property
    @abstractmethod
    def best(self) -> str:
        """How the pieces are taken unless the maker says."""

    @abstractmethod
    def allowed(self) -> list[SeamTolerance]:
        """The ease that each seam is to have."""

    def walked(self, how: str, allowed: Sequence[SeamTolerance]) -> tuple[WalkedSeam, ...]:
        return walk_seams(self.shapes[how], [join for _, join in self.named_joins], allowed)

    def sleeve(self) -> WalkedSeam | None:
        """Its sleeve in its armhole, where the pitch points are known."""
        walked = self.walked(self.best, self.allowed())
        return next((one for one in walked if is_sleeve(one.join) and not one.note), None)


@dataclass(frozen=True, kw_only=True)
class VersionSeams(WalkableSeams):
    """The seams of the newest version of a working pattern, with the ease that it says."""

    working: WorkingPattern

    @property
    def said(self) -> Mapping[str, str]:
        return {WORKING: said_of(self.working.version)}

    @cached_property
    def shapes(self) -> Mapping[str, Sequence[TracedShape]]:
        return {WORKING: [upright(piece.shape)[0] for piece in self.working.pattern.pieces]}

    @property
    def named_joins(self) -> Sequence[tuple[str, GradingJoin]]:
        return [(named(join), join) for join, _ in joins_of_pattern(self.working.pattern)]

    @property
    def best(self) -> str:
        return WORKING

    def allowed(self) -> list[SeamTolerance]:
        return [SeamTolerance(ease_mm=ease_mm) for _, ease_mm in joins_of_pattern(self.working.pattern)]


@dataclass(frozen=True, kw_only=True)
class TracedGarment(WalkableSeams):
    """A garment's traced plate. Grading is done when it is asked for: most sheets never ask."""

    garment: Garment
    plate: TracedPlate
    by: User
    at: datetime

    said = {DRAWN: "as drawn on the plate", GRADED: "graded to the wearer"}

    @cached_property
    def shapes(self) -> Mapping[str, Sequence[TracedShape]]:
        """As drawn and, where they can be graded, graded."""
        drawn = {shape.name: shape for shape in self.plate.shapes.values()}
        graded = graded_garment(self.garment, self.plate, by=self.by, at=self.at)
        made = {DRAWN: drawn, GRADED: {**drawn, **graded.shapes}} if graded.grading else {DRAWN: drawn}
        return {how: [upright(shape)[0] for shape in of.values()] for how, of in made.items()}

    @cached_property
    def seams(self) -> Sequence[tuple[Seam, GradingJoin]]:
        return traced_seams(self.plate)

    @property
    def named_joins(self) -> Sequence[tuple[str, GradingJoin]]:
        return [(str(seam), join) for seam, join in self.seams]

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
        """Graded, where they can be and the comparison does not rule it out."""
        return GRADED if GRADED in self.shapes and not is_grading_ruled_out(self.garment) else DRAWN

    def allowed(self) -> list[SeamTolerance]:
        """The ease that the plate itself has, where it is known that one edge is eased on to the other."""
        drawn = self.walked(DRAWN, [SeamTolerance()] * len(self.seams))
        return [
            SeamTolerance(ease_mm=walked.seam.longer_mm - walked.seam.shorter_mm if seam.is_eased else 0.0)
            for (seam, _), walked in zip(self.seams, drawn, strict=True)
        ]
