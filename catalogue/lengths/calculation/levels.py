"""The girths and lengths that a garment and a wearer are measured along, one word for each.

Terms are those of ISO 8559-1:2017, or of ISO 8559:1989 where the measure kept its older name, so that
measures taken elsewhere can be matched. The terms of 1989 are listed in Gupta and Zakaria, Anthropometry,
Apparel Sizing and Design, table 4.1; a row marked "memory" carries a term not checked against a copy. No
term: the standard has no such measure. How each is taken is common practice, told in our own words.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Kind = Literal["girth", "length"]

EVERYONE = frozenset({"women's", "men's", "children's"})
WOMEN = frozenset({"women's"})
SKIRTS = frozenset({"women's", "children's"})
BREECHES = frozenset({"men's", "children's"})


@dataclass(frozen=True, slots=True)
class Line:
    """One line measured. `key` is its word in files and records, `label` its word on a page.

    `groups` is the dress that asks for it. `has_sides`: left and right may be taken apart. `has_arcs`: a
    girth whose front and back arcs may be. `on_body` is false where only a garment has the line, as a hem.
    """

    key: str
    label: str
    kind: Kind
    iso_term: str
    instruction: str
    groups: frozenset[str] = EVERYONE
    has_sides: bool = False
    has_arcs: bool = False
    on_body: bool = True


# fmt: off
_ROWS = (
    # Girths, from the top down.
    Line("head", "head", "girth", "head girth",
         "Level round the widest part of the head, above the ears, over the hair as it will be dressed."),
    Line("neck", "neck", "girth", "neck girth",
         "Round the neck just below the Adam's apple, or where a collar sits, with room for one finger."),
    Line("neck base", "neck base", "girth", "neck-base girth",
         "Round the root of the neck, over the bone at the nape and the hollow at the throat."),
    Line("high bust", "high bust", "girth", "upper chest girth",  # memory
         "Close under the arms and straight across above the bust, level at the back.", WOMEN, has_arcs=True),
    Line("bust", "bust or chest", "girth", "bust girth",  # men: chest girth
         "Level round the fullest part of the bust or chest, arms down, breathing quietly.", has_arcs=True),
    Line("under bust", "under bust", "girth", "underbust girth",  # memory
         "Level round the ribs directly under the bust.", WOMEN, has_arcs=True),
    Line("waist", "waist", "girth", "waist girth",
         "Where a tape tied round settles, or where the garment's waist will be; leave the tape on.",
         has_arcs=True),
    Line("hip", "hip or seat", "girth", "hip girth",
         "Level round the fullest part of the seat, feet together.", has_arcs=True),
    Line("armhole", "armhole", "girth", "armscye girth",
         "Round the top of the arm: over the shoulder point and close under the arm, arm hanging.",
         has_sides=True),
    Line("upper arm", "upper arm", "girth", "upper-arm girth",
         "Round the fullest part of the arm above the elbow, muscle relaxed.", has_sides=True),
    Line("elbow", "elbow", "girth", "elbow girth",
         "Round the elbow with the arm bent as in sewing.", has_sides=True),
    Line("wrist", "wrist", "girth", "wrist girth",
         "Over the wrist bone on the little finger's side.", has_sides=True),
    Line("hand", "hand", "girth", "hand girth",
         "Round the knuckles with the thumb laid in the palm: what a closed cuff must pass.", has_sides=True),
    Line("thigh", "thigh", "girth", "thigh girth",
         "Level round the leg just below the fork, weight on both feet.", BREECHES, has_sides=True),
    Line("knee", "knee", "girth", "knee girth",
         "Round the knee over the kneecap, leg straight; for breeches also just below it.", BREECHES,
         has_sides=True),
    Line("calf", "calf", "girth", "calf girth",
         "Level round the fullest part of the lower leg.", has_sides=True),
    Line("ankle", "ankle", "girth", "ankle girth",
         "Round the leg over the ankle bones.", has_sides=True),
    Line("hem", "hem", "girth", "", "Round the lower edge of the garment, laid flat.", on_body=False),
    # Lengths: body, arm, skirt, leg.
    Line("height", "height", "length", "stature",  # memory
         "From the top of the head to the floor, without shoes; add the heel height to the record."),
    Line("shoulder", "shoulder", "length", "shoulder length",
         "From the side of the neck along the shoulder to its point.", has_sides=True),
    Line("across back", "across back", "length", "back width",
         "Between the arms at the back, halfway down the armholes, arms hanging."),
    Line("across chest", "across chest", "length", "front chest width",  # memory
         "Between the arms in front, halfway down the armholes."),
    Line("nape to waist", "nape to waist", "length", "back waist length",  # memory
         "From the bone at the nape down the middle of the back to the waist tape."),
    Line("front waist", "front waist", "length", "front waist length",  # memory
         "From the side of the neck over the fullest part of the front to the waist tape.", has_sides=True),
    Line("centre front", "centre front", "length", "",
         "From the hollow of the throat straight down to the waist tape."),
    Line("armhole depth", "armhole depth", "length", "scye depth",
         "From the bone at the nape down the back to the level of a card held close under the arms."),
    Line("underarm to waist", "underarm to waist", "length", "",
         "From a card held close under the arm straight down the side to the waist tape.", has_sides=True),
    Line("neck to bust point", "neck to bust point", "length", "neck shoulder point to breast point",
         "From the side of the neck to the point of the bust.", WOMEN, has_sides=True),
    Line("between bust points", "between bust points", "length", "bust point width",  # memory
         "Straight across from one point of the bust to the other.", WOMEN),
    Line("sleeve", "sleeve", "length", "arm length",
         "From the shoulder point over the bent elbow to the wrist bone.", has_sides=True),
    Line("shoulder to elbow", "shoulder to elbow", "length", "upper-arm length",
         "From the shoulder point to the point of the bent elbow.", has_sides=True),
    Line("inside sleeve", "inside sleeve", "length", "underarm length",  # memory
         "From the fold under the arm along the inside to the wrist.", has_sides=True),
    Line("waist to hip", "waist to hip", "length", "waist to hips",
         "From the waist tape down the side to the level of the fullest part of the seat.", has_sides=True),
    Line("skirt front", "skirt front length", "length", "",
         "From the waist tape in front over what is worn beneath to where the hem will be.",
         SKIRTS),
    Line("skirt side", "skirt side length", "length", "",
         "From the waist tape at the side over what is worn beneath to where the hem will be.",
         SKIRTS, has_sides=True),
    Line("skirt back", "skirt back length", "length", "",
         "From the waist tape at the back over what is worn beneath to where the hem will be, train apart.",
         SKIRTS),
    Line("nape to hem", "nape to hem", "length", "",
         "From the bone at the nape down the middle of the back to where the coat or gown will end."),
    Line("rise", "rise", "length", "body rise",
         "Seated on a hard chair, from the waist tape at the side down to the seat.", BREECHES),
    Line("outside leg", "outside leg", "length", "outside leg length",  # memory
         "From the waist tape down the side of the leg to the hem, or to below the knee for breeches.",
         BREECHES, has_sides=True),
    Line("inside leg", "inside leg", "length", "inside leg length",  # memory
         "From the fork down the inside of the leg to the hem, or to below the knee for breeches.",
         BREECHES, has_sides=True),
)
# fmt: on

LINES: Mapping[str, Line] = MappingProxyType({line.key: line for line in _ROWS})


def girths() -> tuple[Line, ...]:
    """The girth levels, from the top down."""
    return tuple(line for line in _ROWS if line.kind == "girth")


def lengths() -> tuple[Line, ...]:
    """The lengths: body, arm, skirt, leg."""
    return tuple(line for line in _ROWS if line.kind == "length")
