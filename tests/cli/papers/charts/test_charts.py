"""Charts of a proposal: marks where their values are, labels side by side, nothing outside."""

from __future__ import annotations

import itertools
import re
from xml.etree import ElementTree

import pytest

from platewheel.cli.papers.charts.chart import HEIGHT, WIDTH, Chart, round_values, span
from platewheel.cli.papers.charts.flare import Flare, flare_picture
from platewheel.cli.papers.charts.trade import LABEL, Dot, trade_picture

SVG = "{http://www.w3.org/2000/svg}"
DOTS = [
    Dot(100.0, 2000.0, "tried"),
    Dot(105.0, 2500.0, "best"),
    Dot(120.0, 3100.0, "proposed", "1"),
    Dot(120.3, 3120.0, "proposed", "2"),
    Dot(120.4, 3110.0, "proposed", "3"),
    Dot(140.0, 3200.0, "proposed", "4"),
]


def test_values_go_to_their_places() -> None:
    chart = Chart((0.0, 10.0), (0.0, 1.0), "along", "up")
    (x0, y0), (x1, y1) = chart.at(0, 0), chart.at(10, 1)
    assert x0 < x1
    assert y0 > y1  # up is up
    assert chart.at(5, 0.5) == pytest.approx(((x0 + x1) / 2, (y0 + y1) / 2))


@pytest.mark.parametrize("ends", [(0.0, 1.0), (97.3, 141.2), (-73.0, 96.0), (1e3, 1.2e4)])
def test_ticks_are_few_round_and_inside(ends: tuple[float, float]) -> None:
    values = round_values(ends)
    assert 3 <= len(values) <= 9
    assert all(ends[0] <= value <= ends[1] for value in values)
    assert len({round(b - a, 9) for a, b in itertools.pairwise(values)}) == 1
    assert all(len(f"{value:g}".strip("-0.")) <= 3 for value in values)


def test_span_of_one_value_has_room() -> None:
    low, high = span([3.0])
    assert low < 3.0 < high


def test_labels_stand_side_by_side_over_their_marks() -> None:
    root = ElementTree.fromstring(trade_picture(DOTS, 3035.0, "EUR"))
    texts = {text.text: text for text in root.iter(f"{SVG}text")}
    along = [float(texts[label].attrib["x"]) for label in "1234"]
    assert all(b - a >= LABEL - 0.11 for a, b in itertools.pairwise(along))
    squares = [float(box.attrib["y"]) for box in root.iter(f"{SVG}rect")]
    assert len(squares) == 4
    assert all(float(texts[label].attrib["y"]) < min(squares[:3]) for label in "123")
    circles = list(root.iter(f"{SVG}circle"))
    assert [circle.attrib["fill"] == "#fff" for circle in circles] == [True, False]
    assert "must carry 3035 N" in texts
    for one in (*circles, *texts.values()):
        x = float(one.attrib.get("cx", one.attrib.get("x", 0)))
        y = float(one.attrib.get("cy", one.attrib.get("y", 0)))
        assert 0 <= x <= WIDTH
        assert 0 <= y <= HEIGHT


def test_flares_fill_dots_where_all_is_passed_and_mark_the_chosen() -> None:
    flares = [
        Flare(60.0, -0.2, 0.95, False),
        Flare(70.0, 0.25, 0.9, True),
        Flare(80.0, 0.45, 0.8, True),
    ]
    picture = flare_picture(flares, 70.0)
    root = ElementTree.fromstring(picture)
    filled = [dot.attrib["fill"] != "#fff" for dot in root.iter(f"{SVG}circle")]
    assert filled == [False, True, True] * 2
    (upright,) = (p for p in root.iter(f"{SVG}path") if p.get("stroke-dasharray") == "2 3")
    chosen = re.match(r"M([\d.]+) ", upright.attrib["d"])
    assert chosen
    dots = [float(dot.attrib["cx"]) for dot in root.iter(f"{SVG}circle")]
    assert float(chosen[1]) == pytest.approx(dots[1], abs=0.06)


def test_a_unit_is_told_as_it_is_written() -> None:
    assert "&lt;kg&gt;" in trade_picture(DOTS, 3035.0, "<kg>")


def test_nothing_to_draw_is_refused() -> None:
    with pytest.raises(ValueError, match="no dots"):
        trade_picture([], 1.0, "")
    with pytest.raises(ValueError, match="no flares"):
        flare_picture([], 70.0)
