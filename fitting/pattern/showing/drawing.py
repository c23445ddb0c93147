"""The drawing of a sheet of pattern work as SVG: full lines for what is drawn, dashed for what is new."""

from collections.abc import Iterator
from xml.sax.saxutils import escape

from catalogue.lengths.showing import Writing
from fitting.pattern.loading.worked import Drawing, Point, Stroke, Word, written

_LOOKS = {
    "old": 'fill="none" stroke="#1d262e"',
    "new": 'fill="none" stroke="#a31d33"',
    "cloth": 'fill="#efe9dc" stroke="#1d262e"',
    "level": 'fill="none" stroke="#4a545b"',
}
_DASHED = ("new", "level")
_MARGIN, _LETTER, _HAIR = 0.06, 0.035, 0.004  # parts of the drawing's larger side


def draw_work(drawing: Drawing, writing: Writing, *, name: str) -> str:
    """The SVG element, its viewBox in millimetres. `name` keeps its ids apart on a page of several.

    Colours stand as attributes for the printed page; classes let the site's sheet replace them.
    """
    points = [point for stroke in drawing.strokes for point in stroke.points]
    left, top = min(x for x, _ in points), min(y for _, y in points)
    width, height = max(x for x, _ in points) - left, max(y for _, y in points) - top
    size = max(width, height)
    margin = _MARGIN * size
    # Words may be wider than a narrow piece.
    aside = max(0.0, (0.3 * size - width) / 2)
    box = (left - margin - aside, top - margin, width + 2 * (margin + aside), height + 2 * margin)
    parts = "".join((*_strokes(drawing, size), *(_word(word, size, writing) for word in drawing.words)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="work-drawing" viewBox="{" ".join(map(_n, box))}"'
        f' role="img" aria-labelledby="{name}-title {name}-desc" font-family="Vollkorn, Georgia, serif">'
        f'<title id="{name}-title">{escape(drawing.title)}</title>'
        f'<desc id="{name}-desc">{escape(drawing.says)}</desc>{parts}</svg>'
    )


def _strokes(drawing: Drawing, size: float) -> Iterator[str]:
    for stroke in drawing.strokes:
        dashes = f' stroke-dasharray="{_n(4 * _HAIR * size)}"' if stroke.look in _DASHED else ""
        yield (
            f'<path class="work-{stroke.look}" d="{_d(stroke)}" {_LOOKS[stroke.look]}'
            f' stroke-width="{_n(_HAIR * size)}"{dashes} stroke-linejoin="round"/>'
        )


def _word(word: Word, size: float, writing: Writing) -> str:
    x, y = word.at
    return (
        f'<text class="work-word" x="{_n(x)}" y="{_n(y - 0.25 * _LETTER * size)}" text-anchor="{word.anchor}"'
        f' font-size="{_n(_LETTER * size)}" fill="#1d262e">{escape(written(word.parts, writing))}</text>'
    )


def _d(stroke: Stroke) -> str:
    return "M" + "L".join(map(_point, stroke.points)) + ("Z" if stroke.is_closed else "")


def _point(point: Point) -> str:
    return f"{_n(point[0])} {_n(point[1])}"


def _n(value: float) -> str:
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
