from xml.etree import ElementTree

from fitting.outfits.showing import FigureLayer, draw_dressing_order

SVG = "{http://www.w3.org/2000/svg}"
LAYERS = [
    FigureLayer(order=1, name="shift", state="made"),
    FigureLayer(order=2, name="stays <front-laced> & busk, lined", state="being made"),
    FigureLayer(order=3, name="gown", state="studied"),
]


def drawn() -> ElementTree.Element:
    return ElementTree.fromstring(draw_dressing_order(LAYERS))  # noqa: S314


def test_each_garment_is_a_ring_further_out_than_the_one_beneath():
    radii = [float(ring.get("rx")) for ring in drawn().iterfind(f"{SVG}ellipse[@class='layer']")]
    assert radii == sorted(radii)
    assert len(set(radii)) == 3


def test_a_ring_is_solid_dashed_or_dotted_by_how_far_the_garment_is():
    dashes = [ring.get("stroke-dasharray") for ring in drawn().iterfind(f"{SVG}ellipse[@class='layer']")]
    assert dashes == [None, "5 3", "1 3"]


def test_names_are_led_out_to_the_side_and_long_ones_shortened():
    names = [text.text for text in drawn().iterfind(f"{SVG}text[@class='layer-name']")]
    assert names == ["1 shift", "2 stays <front-laced> & bus…", "3 gown"]
    assert "stays <front-laced> & busk, lined, being made" in drawn().find(f"{SVG}desc").text


def test_an_outfit_without_garments_is_not_drawn():
    assert draw_dressing_order([]) == ""
