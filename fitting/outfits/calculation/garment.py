"""What is wanted of a garment as a whole, and how it is to lie at each level."""

from enum import StrEnum


class Purpose(StrEnum):
    """How near a garment is to come to the reference garment that it draws on."""

    THIS_GARMENT = "this garment"
    NEAR_VARIATION = "near variation"
    PERIOD_LOOK = "period look"
    STUDY = "study"


class Fit(StrEnum):
    """How a garment is to lie at a level."""

    FITTED = "fitted"
    LOOSE = "loose"
    GATHERED = "gathered"
    NOT_THERE = "not there"
