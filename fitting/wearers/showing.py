"""The figure that shows where each measure is taken: three plain drawings, numbered as the tables are.

The page on which measures are typed, the sheet to fill in by hand and the dossier use the same drawings.
A unit of the drawing is about a quarter of a centimetre of a person of 1.78 m.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from catalogue.drawing.showing import Colour, disc, element, line, text
from catalogue.drawing.showing import drawing as drawn
from catalogue.lengths.calculation.levels import LINES, SKIRTS, Line

Drawing = Literal["girths", "front", "back"]
TITLES: Mapping[Drawing, str] = {
    "girths": "Girths",
    "front": "Lengths, seen from the front",
    "back": "Lengths, seen from the back",
}

_HEAD = (
    "M0 0C2.5 0.5 10.2 0.5 15 3C19.8 5.5 25.7 9.5 29 15C32.3 20.5 34.2 28.8 35 36"
    "C35.8 43.2 35.3 50.8 34 58C32.7 65.2 30.3 73.2 27 79C23.7 84.8 18.5 90.2 14 93"
    "C9.5 95.8 2.3 95.5 0 96C-2.3 95.5 -9.5 95.8 -14 93C-18.5 90.2 -23.7 84.8 -27 79"
    "C-30.3 73.2 -32.7 65.2 -34 58C-35.3 50.8 -35.8 43.2 -35 36C-34.2 28.8 -32.3 20.5 -29 15"
    "C-25.7 9.5 -19.8 5.5 -15 3C-10.2 0.5 -2.5 0.5 0 0Z"
)
# Neck, right arm, right leg, and their mirror image.
_BODY = (
    "M20 86C20 88.3 19.2 95.5 20 100C20.8 104.5 21.7 109.2 25 113C28.3 116.8 33.8 120 40 123"
    "C46.2 126 55.5 128.5 62 131C68.5 133.5 74.2 134.8 79 138C83.8 141.2 87.8 144.3 91 150"
    "C94.2 155.7 95.8 162.8 98 172C100.2 181.2 101.8 193.7 104 205C106.2 216.3 108.7 228.2 111 240"
    "C113.3 251.8 115.7 265.7 118 276C120.3 286.3 122.3 291.3 125 302C127.7 312.7 131.2 327.7 134 340"
    "C136.8 352.3 139.7 366 142 376C144.3 386 145.8 392 148 400C150.2 408 153.3 416.3 155 424"
    "C156.7 431.7 158 439 158 446C158 453 156.3 461.5 155 466C153.7 470.5 151.5 472.8 150 473"
    "C148.5 473.2 146.8 470.5 146 467C145.2 463.5 145.7 456.3 145 452C144.3 447.7 143 441.5 142 441"
    "C141 440.5 140.2 447.7 139 449C137.8 450.3 136 452.2 135 449C134 445.8 133.7 436.8 133 430"
    "C132.3 423.2 132 415.7 131 408C130 400.3 129.3 394.3 127 384C124.7 373.7 120.3 358 117 346"
    "C113.7 334 110 322.3 107 312C104 301.7 101.8 294.3 99 284C96.2 273.7 93.3 261 90 250"
    "C86.7 239 82.5 227 79 218C75.5 209 70.7 199.7 69 196C68.7 199 68.2 206.7 67 214"
    "C65.8 221.3 63.8 231.3 62 240C60.2 248.7 57.3 258.7 56 266C54.7 273.3 53.7 277 54 284"
    "C54.3 291 55.8 299.3 58 308C60.2 316.7 64.5 327 67 336C69.5 345 71.5 352.7 73 362"
    "C74.5 371.3 75.8 380.7 76 392C76.2 403.3 75.2 417 74 430C72.8 443 70.8 457.3 69 470"
    "C67.2 482.7 64.7 495.7 63 506C61.3 516.3 59.8 523.7 59 532C58.2 540.3 57.8 547.3 58 556"
    "C58.2 564.7 60 574.3 60 584C60 593.7 59.5 603 58 614C56.5 625 53.2 638.7 51 650"
    "C48.8 661.3 46.2 673.7 45 682C43.8 690.3 43.3 695.2 44 700C44.7 704.8 48.7 708 49 711"
    "C49.3 714 50.5 716.8 46 718C41.5 719.2 26.8 719.2 22 718C17.2 716.8 17.5 714.7 17 711"
    "C16.5 707.3 18.3 701.2 19 696C19.7 690.8 21.2 687.7 21 680C20.8 672.3 19.5 661.3 18 650"
    "C16.5 638.7 13.3 623 12 612C10.7 601 9.7 593.3 10 584C10.3 574.7 13.3 565 14 556"
    "C14.7 547 14.7 540.3 14 530C13.3 519.7 11.3 507.3 10 494C8.7 480.7 7.2 463.7 6 450"
    "C4.8 436.3 4 420.7 3 412C2 403.3 0.5 400.3 0 398C-0.5 400.3 -2 403.3 -3 412"
    "C-4 420.7 -4.8 436.3 -6 450C-7.2 463.7 -8.7 480.7 -10 494C-11.3 507.3 -13.3 519.7 -14 530"
    "C-14.7 540.3 -14.7 547 -14 556C-13.3 565 -10.3 574.7 -10 584C-9.7 593.3 -10.7 601 -12 612"
    "C-13.3 623 -16.5 638.7 -18 650C-19.5 661.3 -20.8 672.3 -21 680C-21.2 687.7 -19.7 690.8 -19 696"
    "C-18.3 701.2 -16.5 707.3 -17 711C-17.5 714.7 -17.2 716.8 -22 718C-26.8 719.2 -41.5 719.2 -46 718"
    "C-50.5 716.8 -49.3 714 -49 711C-48.7 708 -44.7 704.8 -44 700C-43.3 695.2 -43.8 690.3 -45 682"
    "C-46.2 673.7 -48.8 661.3 -51 650C-53.2 638.7 -56.5 625 -58 614C-59.5 603 -60 593.7 -60 584"
    "C-60 574.3 -58.2 564.7 -58 556C-57.8 547.3 -58.2 540.3 -59 532C-59.8 523.7 -61.3 516.3 -63 506"
    "C-64.7 495.7 -67.2 482.7 -69 470C-70.8 457.3 -72.8 443 -74 430C-75.2 417 -76.2 403.3 -76 392"
    "C-75.8 380.7 -74.5 371.3 -73 362C-71.5 352.7 -69.5 345 -67 336C-64.5 327 -60.2 316.7 -58 308"
    "C-55.8 299.3 -54.3 291 -54 284C-53.7 277 -54.7 273.3 -56 266C-57.3 258.7 -60.2 248.7 -62 240"
    "C-63.8 231.3 -65.8 221.3 -67 214C-68.2 206.7 -68.7 199 -69 196C-70.7 199.7 -75.5 209 -79 218"
    "C-82.5 227 -86.7 239 -90 250C-93.3 261 -96.2 273.7 -99 284C-101.8 294.3 -104 301.7 -107 312"
    "C-110 322.3 -113.7 334 -117 346C-120.3 358 -124.7 373.7 -127 384C-129.3 394.3 -130 400.3 -131 408"
    "C-132 415.7 -132.3 423.2 -133 430C-133.7 436.8 -134 445.8 -135 449"
    "C-136 452.2 -137.8 450.3 -139 449C-140.2 447.7 -141 440.5 -142 441"
    "C-143 441.5 -144.3 447.7 -145 452C-145.7 456.3 -145.2 463.5 -146 467"
    "C-146.8 470.5 -148.5 473.2 -150 473C-151.5 472.8 -153.7 470.5 -155 466"
    "C-156.3 461.5 -158 453 -158 446C-158 439 -156.7 431.7 -155 424C-153.3 416.3 -150.2 408 -148 400"
    "C-145.8 392 -144.3 386 -142 376C-139.7 366 -136.8 352.3 -134 340"
    "C-131.2 327.7 -127.7 312.7 -125 302C-122.3 291.3 -120.3 286.3 -118 276"
    "C-115.7 265.7 -113.3 251.8 -111 240C-108.7 228.2 -106.2 216.3 -104 205"
    "C-101.8 193.7 -100.2 181.2 -98 172C-95.8 162.8 -94.2 155.7 -91 150C-87.8 144.3 -83.8 141.2 -79 138"
    "C-74.2 134.8 -68.5 133.5 -62 131C-55.5 128.5 -46.2 126 -40 123C-33.8 120 -28.3 116.8 -25 113"
    "C-21.7 109.2 -20.8 104.5 -20 100C-19.2 95.5 -20 88.3 -20 86Z"
)
_SKIRT = "M-54 284C-80 300 -104 400 -138 696C-60 714 60 714 138 696C104 400 80 300 54 284"
# What helps the eye: collar bones; shoulder blades and spine; the waist tape; the level of the armholes.
_HINTS: Mapping[Drawing, tuple[str, ...]] = {
    "girths": ("M-52 137C-32 130 -14 128 -6 132M52 137C32 130 14 128 6 132",),
    "front": ("M-52 137C-32 130 -14 128 -6 132M52 137C32 130 14 128 6 132", "M-54 284Q0 294 54 284"),
    "back": ("M-36 184C-48 202 -48 222 -38 238M36 184C48 202 48 222 38 238", "M-54 284Q0 276 54 284",
             "M-69 197Q0 204 69 197", "M0 300V372"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class MeasureMark:
    """One measure on the figure: its line as an SVG path, and where its number stands.

    `behind` is the part of a girth that goes round the back of the figure.
    """

    drawing: Drawing
    line: str
    number_x: int
    number_y: int
    behind: str = ""


def _band(half: int, y: int, sag: int, number_x: int, number_y: int) -> MeasureMark:
    """A girth round the trunk or the head, level, at height `y`."""
    front, back = (f"M{-half} {y}Q0 {y + 2 * way * sag} {half} {y}" for way in (1, -1))
    return MeasureMark("girths", front, number_x, number_y, behind=back)


def _ring(left: tuple[int, int], right: tuple[int, int], sag: int, number: tuple[int, int]) -> MeasureMark:
    """A girth round an arm or a leg, from its left edge to its right."""
    (x1, y1), (x2, y2) = left, right
    middle_x, middle_y = (x1 + x2) // 2, (y1 + y2) // 2
    front, back = (f"M{x1} {y1}Q{middle_x} {middle_y + 2 * way * sag} {x2} {y2}" for way in (1, -1))
    return MeasureMark("girths", front, *number, behind=back)


# fmt: off
MARKS: Mapping[str, MeasureMark] = {
    "head": _band(35, 36, 5, -54, 36),
    "neck": _band(20, 99, 3, -42, 94),
    "neck base": MeasureMark("girths", "M-28 115Q0 137 28 115", 48, 100, "M-28 115Q0 105 28 115"),
    "high bust": _band(70, 186, 6, -38, 191),
    "bust": _band(67, 212, 7, 0, 219),
    "under bust": _band(61, 243, 6, 34, 247),
    "waist": _band(54, 284, 6, 0, 290),
    "hip": _band(73, 364, 8, 0, 372),
    "armhole": MeasureMark("girths", "M76 136Q60 168 69 196", 105, 172, "M76 136Q88 168 69 196"),
    "upper arm": _ring((83, 228), (108, 222), 6, (128, 220)),
    "elbow": _ring((99, 284), (120, 280), 5, (79, 284)),
    "wrist": _ring((129, 393), (147, 391), 4, (108, 394)),
    "hand": _ring((133, 434), (157, 434), 5, (112, 436)),
    "thigh": _ring((4, 416), (75, 416), 9, (40, 425)),
    "knee": _ring((14, 546), (58, 546), 5, (78, 546)),
    "calf": _ring((10, 588), (60, 588), 5, (80, 590)),
    "ankle": _ring((20, 684), (45, 684), 4, (66, 684)),
    "shoulder": MeasureMark("front", "M-25 113C-40 125 -64 129 -82 140", -66, 110),
    "across chest": MeasureMark("front", "M-64 168Q0 174 64 168", 18, 171),
    "centre front": MeasureMark("front", "M0 126L0 284", 0, 252),
    "front waist": MeasureMark("front", "M25 113C42 150 44 190 42 214C41 240 38 262 36 287", 40, 252),
    "neck to bust point": MeasureMark("front", "M-25 113C-40 145 -42 180 -40 212", -39, 150),
    "between bust points": MeasureMark("front", "M-40 212L40 212", -18, 212),
    "underarm to waist": MeasureMark("front", "M-73 199C-70 225 -62 252 -58 284", -70, 240),
    "waist to hip": MeasureMark("front", "M-58 284C-62 310 -74 335 -78 364", -68, 330),
    "sleeve": MeasureMark("front", "M86 140C98 190 106 250 113 284C124 330 132 360 141 394", 104, 232),
    "inside sleeve": MeasureMark("front", "M-73 199C-85 230 -98 270 -106 300C-116 335 -124 362 -131 394",
                                 -113, 330),
    "skirt front": MeasureMark("front", "M0 284L0 708", 0, 540),
    "skirt side": MeasureMark("front", "M-58 284C-84 302 -106 400 -138 696", -126, 590),
    "rise": MeasureMark("front", "M80 284L80 398", 92, 336),
    "outside leg": MeasureMark("front",
                               "M58 284C72 312 82 360 82 396C80 460 66 510 64 556C66 600 58 640 50 690",
                               72, 480),
    "inside leg": MeasureMark("front", "M5 404C12 450 18 500 19 540C16 580 18 630 25 690", 21, 630),
    "across back": MeasureMark("back", "M-66 168Q0 162 66 168", 42, 166),
    "nape to waist": MeasureMark("back", "M0 108L0 280", 0, 246),
    "armhole depth": MeasureMark("back", "M-3 108C-14 116 -18 130 -18 200", -18, 146),
    "nape to hem": MeasureMark("back", "M3 108C16 120 20 150 20 200L20 600", 20, 330),
    "skirt back": MeasureMark("back", "M0 280L0 708", 0, 640),
    "shoulder to elbow": MeasureMark("back", "M86 140C98 190 108 240 117 284", 103, 210),
    "height": MeasureMark("back", "M-168 0L-168 718", -168, 330),
}
# fmt: on


def lines_of(dress: str) -> tuple[Line, ...]:
    """The lines that a wearer of this dress is measured along, in the order in which they are numbered."""
    return tuple(line for line in LINES.values() if line.on_body and dress in line.groups)


def numbers_of(dress: str) -> dict[str, int]:
    """The number of each line, the same on the drawings and in the tables beside them."""
    return {line.key: number for number, line in enumerate(lines_of(dress), start=1)}


def draw_figures(dress: str) -> list[str]:
    """Return three SVG elements: girths, lengths from the front, lengths from the back."""
    return [_draw(drawing, dress) for drawing in TITLES]


def _draw(drawing: Drawing, dress: str) -> str:
    numbers = {key: number for key, number in numbers_of(dress).items() if MARKS[key].drawing == drawing}
    has_skirt = drawing != "girths" and dress in SKIRTS
    hints = (*_HINTS[drawing], _SKIRT) if has_skirt else _HINTS[drawing]
    described = ", ".join(f"{number} {LINES[key].label}" for key, number in numbers.items())
    outline = {"fill": Colour.CARD, "stroke": Colour.LINE_STRONG, "stroke_width": 1.6}
    return drawn(
        *(element("path", d=d, **outline) for d in (_BODY, _HEAD)),
        *(line(hint, Colour.LINE_STRONG, 1.2, stroke_dasharray="5 4") for hint in hints),
        *(part for key in numbers for part in _line(MARKS[key])),
        *(part for key, number in numbers.items() for part in _number(MARKS[key], number)),
        name=f"figure-{drawing}",
        css="figure-drawing",
        box=(-182, -12, 364, 742),
        title=TITLES[drawing],
        says=f"A standing figure with numbered lines: {described}.",
    )


def _line(mark: MeasureMark) -> Iterator[str]:
    if mark.behind:
        yield line(mark.behind, Colour.PIN_RED, 1.2, stroke_dasharray="3 3")
    yield line(mark.line, Colour.PIN_RED, 2.4)
    if not mark.behind:
        # A length runs from one point to another: both are shown.
        points = [tuple(map(int, point)) for point in re.findall(r"(-?\d+) (-?\d+)", mark.line)]
        yield from (disc(x, y, 3.2, Colour.PIN_RED) for x, y in (points[0], points[-1]))


def _number(mark: MeasureMark, number: int) -> Iterator[str]:
    x, y = mark.number_x, mark.number_y
    yield disc(x, y, 11, Colour.PAPER, stroke=Colour.PIN_RED)
    yield text(x, y + 5, str(number), size=15, font_weight=600, css="figure-number")
