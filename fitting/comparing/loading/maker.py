"""What a maker states once, as values: limits, skills, hours."""

import statistics
from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.workroom.models import User
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.calculation.routes import GUESSED_HOURS, Route, SkillLevel
from fitting.comparing.models import RouteChoice
from fitting.wearers.models import Maker

# A median of fewer says more about one garment than about the maker.
ENOUGH_LOGGED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class MakerValues:
    """`limits` are for any garment; how many edges may take is the garment's own."""

    limits: Limits
    skills: Mapping[str, SkillLevel]
    hours: Mapping[Route, float]
    hours_a_day: float
    stale_days: int


def maker_values(user: User | None) -> MakerValues:
    """Return the values of a person, or the defaults where they stated none (or nobody is known)."""
    maker = Maker.objects.filter(user=user).prefetch_related("skills").first() if user else None
    skills = {skill.name: SkillLevel(skill.level) for skill in maker.skills.all()} if maker else {}
    row = maker or Maker()
    return MakerValues(
        limits=_limits(row),
        skills=skills,
        hours=dict(GUESSED_HOURS) | _median_hours(user),
        hours_a_day=row.hours_a_day,
        stale_days=row.stale_days,
    )


def _limits(maker: Maker) -> Limits:
    return Limits(
        fits_mm=maker.fits.mm,
        add_mm=maker.add.mm,
        take_off_mm=maker.take_off.mm,
        per_edge_mm=maker.per_edge.mm,
        length_fits_mm=maker.length_fits.mm,
        length_alter_mm=maker.length_alter.mm,
        grade_far_mm=maker.grade_far.mm,
        grade_too_far_mm=maker.grade_too_far.mm,
    )


def _median_hours(user: User | None) -> dict[Route, float]:
    """The median of the hours a maker logged, for each route that they logged often enough."""
    if user is None:
        return {}
    logged: dict[str, list[float]] = {}
    for route, hours in RouteChoice.objects.filter(chosen_by=user, hours__gt=0).values_list("route", "hours"):
        logged.setdefault(route, []).append(hours)
    return {
        Route(route): statistics.median(hours)
        for route, hours in logged.items()
        if len(hours) >= ENOUGH_LOGGED
    }
