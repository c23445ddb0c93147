"""Which way to the pattern: each route judged on its own by a table of rules."""

from fitting.comparing.calculation.routes import (
    ENLARGEMENTS,
    GUESSED_HOURS,
    SKILL_OF,
    Effect,
    Purpose,
    Reason,
    Route,
    RouteJudgement,
    Skill,
    Standing,
)

__all__ = [
    "ENLARGEMENTS",
    "GUESSED_HOURS",
    "SKILL_OF",
    "Effect",
    "Purpose",
    "Reason",
    "Route",
    "RouteJudgement",
    "Skill",
    "Standing",
]
