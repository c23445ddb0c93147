from datetime import date, timedelta
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from fitting.planning.showing import WIDTH, TaskBar, draw_plan

SVG = "{http://www.w3.org/2000/svg}"
TODAY = date(2026, 11, 25)
BARS = [
    TaskBar(
        label="stays: sew <& fell>",
        begins_on=TODAY,
        done_on=date(2026, 12, 4),
        must_be_done_by=date(2027, 1, 10),
        is_critical=True,
    ),
    TaskBar(
        label="kerchief",
        begins_on=date(2026, 12, 4),
        done_on=date(2027, 2, 20),
        must_be_done_by=date(2027, 2, 1),
        is_critical=False,
    ),
]
BETWEEN = (date(2027, 2, 20), date(2027, 3, 1), date(2027, 4, 1))


def drawn(bars=BARS, occasion_on=date(2027, 2, 2), fittings=()) -> ElementTree.Element:
    return ElementTree.fromstring(  # noqa: S314
        draw_plan(bars, today=TODAY, occasion_on=occasion_on, between=BETWEEN, fittings=fittings)
    )


def boxes(svg, css):
    return [
        (float(box.get("x")), float(box.get("x")) + float(box.get("width")))
        for box in svg.iterfind(f"{SVG}rect[@class='{css}']")
    ]


def test_bars_follow_one_another_and_the_longest_chain_is_filled():
    svg = drawn()
    ((chain_left, chain_right),) = boxes(svg, "plan-chain")
    ((left, right),) = boxes(svg, "plan-bar")
    assert chain_left < chain_right
    assert left < right
    assert right > chain_right


def test_a_task_too_late_has_another_flag_and_says_so():
    svg = drawn()
    assert len(svg.findall(f"{SVG}path[@class='plan-late']")) == 1
    assert len(svg.findall(f"{SVG}path[@class='plan-must']")) == 1
    described = svg.find(f"{SVG}desc").text
    assert "kerchief: 4 December 2026 to 20 February 2027, too late." in described
    assert "stays: sew <& fell>: 25 November 2026 to 4 December 2026, on the longest chain." in described
    assert "Ready between 20 February 2027 and 1 April 2027. The occasion: 2 February 2027." in described


@pytest.mark.parametrize("occasion_on", [None, date(2020, 1, 1), date(2027, 2, 2), date(2046, 1, 1)])
def test_everything_stays_on_the_sheet(occasion_on):
    svg = drawn(occasion_on=occasion_on)
    found = [*boxes(svg, "plan-chain"), *boxes(svg, "plan-bar"), *boxes(svg, "plan-range")]
    assert all(left >= 0 and right <= WIDTH for left, right in found)
    assert all(0 <= float(text.get("x")) <= WIDTH for text in svg.iterfind(f"{SVG}text"))


@pytest.mark.parametrize("day", [TODAY, date(2027, 1, 31), date(2027, 4, 1)])
def test_days_near_each_other_are_named_side_by_side(day):
    near = [day, day + timedelta(days=1), day + timedelta(days=2)]
    named = drawn(occasion_on=near[0], fittings=near[1:]).findall(f"{SVG}text[@font-size='10.5']")
    words = sorted((float(one.get("x")), one.text) for one in named if one.text in ("fitting", "the day"))
    assert [word for _, word in words].count("fitting") == 2
    for (left, word), (right, other) in pairwise(words):
        assert right - left >= 5 * (len(word) + len(other)) / 2  # a letter is about 5 wide
    assert all(x - 2.5 * len(word) >= 0 and x + 2.5 * len(word) <= WIDTH for x, word in words)


def test_without_tasks_there_is_nothing_to_draw():
    assert draw_plan([], today=TODAY, occasion_on=None, between=BETWEEN) == ""
