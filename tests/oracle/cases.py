"""Cases for `assess` at random: every input that a file may hold, varied, and sound."""

from random import Random
from typing import Any

from tests.oracle.figures import INCH, lines_of

GIRTHS = ("bust", "under bust", "waist", "hip", "upper arm", "wrist", "neck")
LENGTHS = ("nape to waist", "front waist", "sleeve")
SKILLS = ("alter", "grade", "drape", "combine", "draft")
# Mostly near to fitting, for there verdicts turn; and some far off.
SPREADS_IN = (0.3, 0.8, 2.0, 3.5, 6.0)


def sound_case(random: Random) -> dict[str, Any]:
    """One that no rule of the format refuses."""
    while True:
        file = _case(random)
        allowances_mm = (0.0, INCH / 2)
        if all(line["garment_mm"] > INCH for mm in allowances_mm for line in lines_of(file, mm)):
            return file


def _case(random: Random) -> dict[str, Any]:
    file: dict[str, Any] = {
        "format": "plate-and-toile assessment",
        "version": 1,
        "scale": _scale(random),
        "pieces": [_piece(random, number) for number in range(random.choice((1, 1, 2, 3, 4)))],
        "lengths": {
            line: {"reading": _inches(random, 1.2, 2.6), "crossed_ends": random.randrange(3)}
            for line in random.sample(LENGTHS, random.choice((0, 0, 1, 2, 3)))
        },
    }
    _say(
        file,
        random,
        "seam_allowance",
        lambda: {"drawn": random.choice(("none", "1/4 in", "1 cm", "not known"))},
    )
    _say(
        file,
        random,
        "rule_division",
        lambda: random.choice(("1/8 in", "1/16 in", "1/32 in", "0.1 cm", "1/64 in")),
    )
    _say(file, random, "drawing_doubt", lambda: random.choice(("0 in", "1/16 in", "1/8 in", "0.05 cm")))
    levels = sorted({level for piece in file["pieces"] for level in piece["readings"]}, key=GIRTHS.index)
    _say(file, random, "fastening", lambda: _fastening(random, levels))
    file["measures"] = _measures(random, file, levels)
    lines = [*levels, *file["lengths"]]
    _say(file, random, "ease", lambda: {line: _inches(random, -2, 2) for line in _some(random, lines)})
    fits = ("fitted", "fitted", "loose", "gathered", "not there")
    _say(file, random, "fit", lambda: {line: random.choice(fits) for line in _some(random, lines)})
    _say(file, random, "limits", lambda: _limits(random))
    _say_what_the_maker_has(file, random)
    return file


def _say_what_the_maker_has(file: dict[str, Any], random: Random) -> None:
    purposes = ("this garment", "this garment", "near variation", "period look", "study")
    _say(file, random, "purpose", lambda: random.choice(purposes))
    _say(file, random, "seams", lambda: _seams(random))
    words = ("none", "learning", "working", "working")
    _say(file, random, "skills", lambda: {one: random.choice(words) for one in _some(random, SKILLS)})
    _say(file, random, "stand", lambda: {"girths": _near(random, file["measures"]["girths"])}, often=0.4)
    _say(file, random, "patterns_in_hand", lambda: random.random() < 0.6)
    _say(file, random, "days_left", lambda: random.choice((0, 1, 1.5, 2, 3, 4, 5, 40)), often=0.3)
    _say(file, random, "hours_a_day", lambda: random.choice((0.5, 1, 2, 3, 8)))


def _say(file: dict[str, Any], random: Random, key: str, value: Any, often: float = 0.6) -> None:
    if random.random() < often:
        file[key] = value()


def _some(random: Random, names: Any) -> list[str]:
    return [name for name in names if random.random() < 0.6]


def _inches(random: Random, least: float, most: float) -> str:
    """In sixty-fourths, now and then in centimetres."""
    value = random.uniform(least, most)
    if random.random() < 0.1:
        return f"{value * 2.54:.2f} cm"
    return f"{'-' if value < 0 else ''}{abs(round(value * 64))}/64 in"


def _scale(random: Random) -> dict[str, Any]:
    scale: dict[str, Any] = random.choice(
        ({"ratio": "1:8"}, {"ratio": "1:10"}, {"ratio": "1:6.5"}, {"page": "1 in", "real": "8 in"})
    )
    return dict(scale) | random.choice(({}, {"relative_doubt": 0.015}, {"relative_doubt": 0}))


def _piece(random: Random, number: int) -> dict[str, Any]:
    levels = random.sample(GIRTHS, random.choice((1, 2, 3, 4)))
    piece: dict[str, Any] = {
        "name": f"piece {number}",
        "readings": {level: _inches(random, 0.9, 2.2) for level in levels},
    }
    _say(piece, random, "cut", lambda: random.choice((1, 2, 2, 3, 4)))
    _say(piece, random, "on_fold", lambda: random.random() < 0.5)
    _say(piece, random, "edges", lambda: random.randrange(4), often=0.3)
    _say(piece, random, "take_up", lambda: {one: _inches(random, 0, 0.3) for one in _some(random, levels)})
    return piece


def _fastening(random: Random, levels: list[str]) -> dict[str, Any]:
    one_for_all = random.random() < 0.5
    return {
        name: _inches(random, 0, 2)
        if one_for_all
        else {one: _inches(random, 0, 2) for one in _some(random, levels)}
        for name in ("overlap", "lacing_gap")
        if random.random() < 0.7
    }


def _measures(random: Random, file: dict[str, Any], levels: list[str]) -> dict[str, Any]:
    """A body near to what the plate comes to, and some levels that nobody measured."""
    unmeasured = {
        "measures": {
            "girths": dict.fromkeys(levels, "1 in"),
            "lengths": dict.fromkeys(file["lengths"], "1 in"),
        }
    }
    drawn = file.get("seam_allowance", {}).get("drawn")
    allowance_mm = {"1/4 in": INCH / 4, "1 cm": 10.0}.get(drawn, 0.0)
    come_to = {line["name"]: line["garment_mm"] / INCH for line in lines_of(file | unmeasured, allowance_mm)}
    shift, spread = random.uniform(-5, 5) * random.choice((0, 0, 1)), random.choice(SPREADS_IN)

    def near(line: str) -> str:
        wide = spread if line in levels else spread / 2
        return _inches(
            random, *(max(come_to[line] + shift * (line in levels) + off, 3) for off in (-wide, wide))
        )

    measures: dict[str, Any] = {
        "girths": {level: near(level) for level in levels if random.random() < 0.9},
        "lengths": {line: near(line) for line in file["lengths"] if random.random() < 0.9},
    }
    _say(
        measures, random, "doubt", lambda: random.choice(("1/16 in", "1/8 in", "3/8 in", "5/8 in", "0.5 cm"))
    )
    _say(measures, random, "length_doubt", lambda: random.choice(("1/8 in", "1/2 in")), often=0.3)
    return measures


def _near(random: Random, girths: dict[str, str]) -> dict[str, str]:
    """A stand of about the wearer's size."""
    off_in = random.choice((0, -1, 1))
    return {
        level: f"{float(_as_inches(text)) + off_in + random.choice((0, 0.25, -0.25)):.4f} in"
        for level, text in girths.items()
        if random.random() < 0.8
    } or {"waist": "30 in"}


def _as_inches(text: str) -> float:
    number, unit = text.rsplit(" ", 1)
    if unit == "cm":
        return float(number) / 2.54
    whole, parts = number.split("/")
    return int(whole) / int(parts)


def _limits(random: Random) -> dict[str, Any]:
    limits: dict[str, Any] = {}
    _say(limits, random, "fits", lambda: random.choice(("1/4 in", "3/4 in")))
    _say(limits, random, "add", lambda: random.choice(("1 1/2 in", "2 in", "4 in")))
    _say(limits, random, "take_off", lambda: random.choice(("1 in", "5 in")))
    _say(limits, random, "per_edge", lambda: random.choice(("1/2 in", "1 in")))
    _say(limits, random, "edges_that_may_take", lambda: random.choice((2, 4, 6)))
    _say(limits, random, "length_fits", lambda: random.choice(("1/8 in", "1/2 in")))
    _say(limits, random, "length_alter", lambda: random.choice(("1 in", "2 in")))
    return limits


def _seams(random: Random) -> dict[str, int]:
    seams = {name: random.randrange(5) for name in ("recorded", "inferred", "tried")}
    return seams | {"unknown": random.choice((0, 0, 0, 1, 2))}
