"""The time line as a drawing, and its key: solid is stated, dashed is about, dotted is not known."""

from collections.abc import Iterator, Mapping, Sequence

from django.utils.safestring import SafeString

from catalogue.drawing.showing import Colour, drawing, element, line, text, track
from catalogue.reading_room.calculation.time_line import Bar, TimeLine
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.calculation.dates import DateEnds, describe

WHISKER = 18.0  # how far “about” is drawn past an end: to be seen, not to scale
BAR = 8.0
KEY_WIDTH, KEY_HEIGHT = 60.0, 12.0
_KEY = {
    "stated": (10, 50, DateEnds(first="stated", last="stated")),
    "about": (20, 40, DateEnds(first="about", last="about")),
    "open": (0, 50, DateEnds(first="open", last="stated")),
}


def draw_time_line(laid: TimeLine, garments: Sequence[tuple[ReferenceGarment, Bar]]) -> SafeString:
    """One bar for each garment, a link to its page."""
    return drawing(
        *(part for year, x in laid.ticks for part in _tick(year, x, laid.height)),
        *(_garment(reference, bar, laid.width) for reference, bar in garments),
        name="time",
        css="time-line",
        box=(0, 0, laid.width, laid.height),
        title=f"Time line of {len(garments)} garment{'' if len(garments) == 1 else 's'}",
        says="One bar for each garment, from the earliest to the latest day of its date."
        " The table below says the same.",
        role="group",  # its links are found inside it
    )


def draw_key() -> Mapping[str, SafeString]:
    """How an end is drawn that is stated, about, or open."""
    return {
        name: element(
            "svg",
            *_bar(Bar(left=left, right=right, y=KEY_HEIGHT / 2, ends=ends), KEY_WIDTH),
            viewBox=track(0, 0, KEY_WIDTH, KEY_HEIGHT),
            aria_hidden="true",
        )
        for name, (left, right, ends) in _KEY.items()
    }


def _tick(year: int, x: float, height: float) -> Iterator[SafeString]:
    yield line(track("M", x, 20, "V", height), Colour.LINE, 1)
    yield text(x, 14, str(year), size=12, fill=Colour.INK_SOFT, css="time-year")


def _garment(reference: ReferenceGarment, bar: Bar, width: float) -> SafeString:
    x, anchor = (bar.right, "end") if bar.is_late else (bar.left, "start")
    return element(
        "a",
        element("title", f"{reference}, {describe(reference.date_edtf)}"),
        *_bar(bar, width),
        text(x, bar.y - 9, str(reference), size=12, fill=Colour.CHALK_BLUE, anchor=anchor, css="time-name"),
        css="time-garment",
        href=reference.get_absolute_url(),
    )


def _bar(bar: Bar, width: float) -> Iterator[SafeString]:
    ink, y = Colour.CHALK_BLUE, bar.y
    if bar.is_open:
        dotted = {"stroke_dasharray": "1.5 4", "stroke_linecap": "round"}
        yield line(track("M", bar.left, y, "H", bar.right), ink, 2, **dotted)
    else:
        box = {"x": bar.left, "y": y - BAR / 2, "width": bar.right - bar.left, "height": BAR}
        yield element("rect", **box, fill=Colour.WASH_BLUE, stroke=ink)
    for end, x, edge, out in ((bar.ends.first, bar.left, 0.0, -1), (bar.ends.last, bar.right, width, 1)):
        if end == "open":
            head = track("M", edge - 8 * out, y - 4, "l", 8 * out, 4, "l", -8 * out, 4, "z")
            yield element("path", d=head, fill=ink)
        elif end == "stated":
            yield line(track("M", x, y - 6, "v", 12), ink, 2)
        elif end == "about":
            yield line(track("M", x, y, "h", WHISKER * out), ink, 2, stroke_dasharray="5 3")
