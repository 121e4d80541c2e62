"""The hub's holes as a drawing: well formed, to scale, its words inside."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from platewheel.cli.papers.drawings.dimension_lines import text_width
from platewheel.cli.papers.drawings.hub_holes import SHARE, holes_picture

HUB = {"bore": 40.0, "outside of it": 57.0, "length of it": 70.0}
KEY = {"keyway, width": 12.0, "keyway in the hub, depth": 3.3}
SCREW = {"screw": 6.0, "from the end to the middle of the screws": 3.7}
COLLAR = {"bore": 30.5, "outside of it": 46.5, "length of it": 10.0}
SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("figures", [HUB | KEY, HUB | SCREW, HUB | KEY | SCREW, COLLAR | SCREW])
def test_words_stand_inside_and_nothing_is_drawn_that_is_not_there(
    figures: dict[str, float],
) -> None:
    root = ElementTree.fromstring(holes_picture(figures, "mm"))
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    groups = {group.attrib.get("data-key", ""): group for group in root.iter(f"{SVG}g")}
    for name in ("keyway", "screws"):
        for text in groups[name].iter(f"{SVG}text") if name in groups else ():
            x, y = float(text.attrib["x"]), float(text.attrib["y"])
            size = float(text.attrib["font-size"])
            run = size * text_width(text.text or "", 1.0)
            start = x - run if text.attrib["text-anchor"] == "end" else x
            assert left <= start <= start + run <= left + wide, text.text
            assert top <= y - size < y <= top + high
    names = groups.keys()
    assert ("keyway" in names) == ("keyway, width" in figures)
    assert ("screws" in names) == ("screw" in figures)


def test_the_keyway_is_as_wide_and_deep_as_told() -> None:
    svg = holes_picture(HUB | KEY, "mm")
    (slot,) = re.findall(r"M-6\.00 (-[\d.]+)L-6\.00 (-[\d.]+)L6\.00 \2L6\.00 \1", svg)
    foot, bottom = map(float, slot)
    assert bottom == pytest.approx(-(20 + 3.3))
    assert foot == pytest.approx(-((20**2 - 6**2) ** 0.5), abs=0.01)
    assert f'font-size="{SHARE * 57:.2f}"' in svg


def test_inches() -> None:
    assert "1 37/64 in" in holes_picture(HUB, "inch")  # 40 mm
