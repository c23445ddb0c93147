"""A skirt over hoops, pads or a bustle: its length all round, from heights taped over the support.

Heights are taped from waist to floor at places from centre front (0) to centre back (1) of one half.
Between them the length runs fair. Breadths are cut alike with a straight hem, and the difference is made at
the top; a train alone is shaped at the hem.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import cos, pi

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.fair_curve import FairCurve, fair_curve
from fitting.pattern.calculation.limits import unfit
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures
from fitting.pattern.calculation.sums.sheet_answer import (
    AnswerLine,
    Grid,
    SheetAnswer,
    Sketch,
    SketchWord,
    Stroke,
    Sum,
)

FEWEST_HEIGHTS = 5
# Lengths are asked and told at every eighth of the half.
EIGHTHS = tuple(at / 8 for at in range(9))
NAMES = ("centre front", *(f"{at}/8 round" for at in (1, 2, 3)), "side",
         *(f"{at}/8 round" for at in (5, 6, 7)), "centre back")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Train:
    """Cloth that lies on the floor behind: `length_mm` at centre back, fair to nothing at `from_place`."""

    length_mm: float
    from_place: float = 0.5

    def at(self, place: float) -> float:
        """Common practice, no source: level where it begins and at centre back, fullest there."""
        if place <= self.from_place or self.from_place >= 1:
            return 0.0
        part = (place - self.from_place) / (1 - self.from_place)
        return self.length_mm * (1 - cos(pi * part)) / 2


NO_TRAIN = Train(length_mm=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SkirtLengths:
    """How long the skirt is at each place of the half, hem clear of the floor, train and all."""

    taped: FairCurve
    clearance_mm: float
    train: Train

    def at(self, place: float) -> float:
        return self._level(place) + self.at_hem(place)

    def at_hem(self, place: float) -> float:
        """What lies below the straight hem. Over a train the clearance fades: it lies on the floor."""
        trained = self.train.at(place)
        share = trained / self.train.length_mm if self.train.length_mm else 0.0
        return trained + share * self.clearance_mm

    def cut_away_at_top(self, place: float) -> float:
        """What is cut or turned down at the top, so that the hem of breadths cut alike comes out level."""
        return self._highest_mm - self._level(place)

    def _level(self, place: float) -> float:
        return self.taped.at(place) - self.clearance_mm

    @property
    def _highest_mm(self) -> float:
        return max(self._level(step / 200) for step in range(201))

    @property
    def longest_mm(self) -> float:
        """What breadths are cut as long as: from the highest top to the lowest hem."""
        return self._highest_mm + max(self.at_hem(step / 200) for step in range(201))


def skirt_lengths(
    heights: Iterable[tuple[float, float]], *, clearance_mm: float = 0.0, train: Train = NO_TRAIN
) -> SkirtLengths:
    """From (place, height in mm) pairs, centre front and centre back among them.

    Raises Faults for fewer than five, for places outside the half, and for a hem above the waist.
    """
    taped = sorted(heights)
    places = [place for place, _ in taped]
    lengths = {"clearance": clearance_mm, "train": train.length_mm}
    highest_mm = max((height for _, height in taped), default=None)
    faults = [*unfit(lengths, may_be_nothing=lengths), *unfit({"heights": highest_mm})]
    if len(set(places)) < FEWEST_HEIGHTS or len(set(places)) < len(places):
        faults.append(
            Fault("heights", f"Tape at least {FEWEST_HEIGHTS} heights, each at a place of its own.")
        )
    elif places[0] != 0 or places[-1] != 1:
        faults.append(
            Fault("heights", "Tape from centre front to centre back: places 0 and 1 are among them.")
        )
    if not all(height > clearance_mm for _, height in taped):
        faults.append(Fault("clearance", "The hem would come to lie above the waist."))
    if not 0 <= train.from_place < 1:
        faults.append(Fault("train", "A train begins between front and back."))
    if faults:
        raise Faults(faults)
    return SkirtLengths(taped=fair_curve(taped), clearance_mm=clearance_mm, train=train)


def _reckon(
    *, heights: Sequence[Mapping[str, float]], clearance_mm: float, train: Mapping[str, float]
) -> SkirtLengths:
    return skirt_lengths(
        [(one["place"], one["height_mm"]) for one in heights],
        clearance_mm=clearance_mm,
        train=Train(length_mm=train["length_mm"], from_place=train["from"]),
    )


def _answer(lengths: SkirtLengths, given: Given) -> Answer:
    rows = [
        {
            "place": place,
            "taped_mm": lengths.taped.at(place),
            "length_mm": lengths.at(place),
            "off_at_top_mm": lengths.cut_away_at_top(place),
            "train_at_hem_mm": lengths.at_hem(place),
        }
        for place in EIGHTHS
    ]
    return {"longest_mm": lengths.longest_mm, "lengths": rows}


def _worked(lengths: SkirtLengths, given: Given) -> SheetAnswer:
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (name,),
            (lengths.taped.at(place),),
            (lengths.at(place),),
            (lengths.cut_away_at_top(place),),
            *(((lengths.at_hem(place),),) if lengths.train.length_mm else ()),
        )
        for place, name in zip(EIGHTHS, NAMES, strict=True)
    )
    heads = ("place", "taped to the floor", "skirt", "off at the top, its hem straight")
    return SheetAnswer(
        figures={"longest": lengths.longest_mm} | {f"at {place:g}": lengths.at(place) for place in EIGHTHS},
        lines=(AnswerLine(label="breadths cut as long as", parts=(lengths.longest_mm,)),),
        grids=(
            Grid(
                caption="Round one half, from centre front to centre back",
                heads=(*heads, "on at the hem, for the train") if lengths.train.length_mm else heads,
                rows=rows,
            ),
        ),
        drawings=(_lengths_drawn(lengths),),
    )


def _lengths_drawn(lengths: SkirtLengths) -> Sketch:
    """Breadths with a straight hem: the half laid flat, its top cut away, a train below."""
    longest, width = lengths.longest_mm, lengths.longest_mm * 1.5
    level = lengths.cut_away_at_top(0) + lengths.at(0) - lengths.at_hem(0)
    fine = [step / 40 for step in range(41)]
    top = [(place * width, lengths.cut_away_at_top(place)) for place in fine]
    hem = [(place * width, level + lengths.at_hem(place)) for place in fine]
    return Sketch(
        title="Half the skirt laid flat",
        says="The upper edge dips where the skirt is shorter, the hem is straight but for a train; across is "
        "not to scale.",
        strokes=(
            Stroke(points=((0.0, 0.0), (width, 0.0)), look="level"),
            Stroke(points=((0.0, level), (width, level)), look="level"),
            Stroke(points=(*top, *reversed(hem)), look="cloth", is_closed=True),
        ),
        words=tuple(
            SketchWord(
                at=(place * width, longest * 0.5),
                parts=(lengths.at(place),),
                anchor={0.0: "start", 1.0: "end"}.get(place, "middle"),
            )
            for place in EIGHTHS[::2]
        ),
    )


def _body_heights(known: GarmentFigures) -> list[dict[str, float | None]]:
    taken = {0: "skirt front", 4: "skirt side", 8: "skirt back"}
    return [{"height": known.body_mm.get(taken.get(at, ""))} for at in range(len(EIGHTHS))]


SUPPORT = PatternSum(
    key="support",
    title="skirt over a support",
    says="A skirt’s length all round over hoops, pads or a bustle, from heights taped to the floor.",
    group="Skirts",
    command="skirt",
    inputs=(
        ask.InputRows(
            name="heights",
            columns=(
                ask.Number("place", "0 at centre front, 1 at centre back", is_needed=True),
                ask.Length("height", "height {at} eighths round from centre front", is_needed=True),
            ),
            fixed={"place": EIGHTHS},
            caption="Taped heights",
            heads=("place", "height"),
            labels=NAMES,
            says="Over the support, from the waist down to the floor: centre front, centre back and three "
            "between.",
            marked_by="height",
            first=_body_heights,
            counts_from=0,
        ),
        ask.Group(
            name="train",
            inputs=(
                ask.Length("length", "Train at centre back", box="train", default="0 in"),
                ask.Number(
                    "from",
                    "The train begins at",
                    box="train_from",
                    default=0.5,
                    offered={0.5: "the side", 0.375: "a little before the side", 0.75: "behind the side"},
                    first="0.5",
                ),
            ),
        ),
        ask.Length("clearance", "Hem clear of the floor by", default="0 in", first=25.4),
    ),
    reckon=_reckon,
    worked=_worked,
    answer=_answer,
)
