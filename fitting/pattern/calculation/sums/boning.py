"""Bones from the channels that they go into: each length, how many, and how much to buy."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.units import INCH_MM
from fitting.pattern.calculation.limits import unfit
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Given, PatternSum
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer

# Common practice, no source: a bone ends a quarter inch short of each end of its channel, so that it does not
# work through, and a channel is an eighth wider than its bone.
BONE_SHORTER_MM = INCH_MM / 2
CHANNEL_WIDER_MM = INCH_MM / 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Boning:
    """Bones for channels of given lengths, each twice where the sides are alike."""

    bones_mm: tuple[float, ...]
    channel_width_mm: float

    @property
    def count(self) -> int:
        return len(self.bones_mm)

    @property
    def total_mm(self) -> float:
        return sum(self.bones_mm)


def boning(channels_mm: Sequence[float], *, bone_width_mm: float, sides: int = 2) -> Boning:
    """One bone for each channel on each side. Raises Faults for a channel too short for a bone."""
    if not channels_mm:
        raise Faults([Fault("channels", "Give at least one channel.")])
    faults = [
        Fault(f"channels[{at}]", "This channel is too short to hold a bone.")
        for at, channel in enumerate(channels_mm)
        if not channel > BONE_SHORTER_MM
    ]
    faults += unfit({f"channels[{at}]": max(channel, 1) for at, channel in enumerate(channels_mm)})
    faults += unfit({"bone_width": bone_width_mm})
    if faults:
        raise Faults(faults)
    bones = tuple(channel - BONE_SHORTER_MM for channel in channels_mm for _ in range(sides))
    return Boning(bones_mm=bones, channel_width_mm=bone_width_mm + CHANNEL_WIDER_MM)


def _reckon(*, channels: Sequence[Mapping[str, float]], bone_width_mm: float, sides: float) -> Boning:
    return boning([one["length_mm"] for one in channels], bone_width_mm=bone_width_mm, sides=int(sides))


def _worked(made: Boning, given: Given) -> SheetAnswer:
    channels_mm, sides = [one["length_mm"] for one in given["channels"]], int(given["sides"])
    return SheetAnswer(
        figures={"bones": made.count, "total": made.total_mm, "channel width": made.channel_width_mm},
        lines=(
            AnswerLine(label="bones", parts=(f"{len(channels_mm)} × {sides} = {made.count}",)),
            AnswerLine(label="boning in all", parts=(made.total_mm,)),
            AnswerLine(label="channel, stitching to stitching", parts=(made.channel_width_mm, " wide")),
        ),
        grids=(
            Grid(
                caption="Each bone ends short of its channel, so that it does not work through",
                heads=("channel", "its length", "sum", "bone", "how many"),
                rows=tuple(
                    (
                        (f"channel {at}",),
                        (channel_mm,),
                        (channel_mm, " − ", BONE_SHORTER_MM),
                        (channel_mm - BONE_SHORTER_MM,),
                        (str(sides),),
                    )
                    for at, channel_mm in enumerate(channels_mm, start=1)
                ),
            ),
        ),
    )


BONING = PatternSum(
    key="boning",
    title="boning",
    says="Bones from the channels they go into: each length, how many, and how much to buy.",
    group="Bias, bones and fastenings",
    inputs=(
        ask.Length("bone_width", "Width of a bone", first=6.35, is_needed=True),
        ask.Number("sides", "Sides", default=2, offered={2: "both sides alike", 1: "as listed"}, first="2"),
        ask.InputRows(
            name="channels",
            columns=(ask.Length("length", "channel {row}", box="channel", is_needed=True),),
            caption="Channels",
            heads=("channel", "its length"),
            marked_by="length",
            blank=10,
            counts_from=0,
        ),
    ),
    reckon=_reckon,
    worked=_worked,
)
