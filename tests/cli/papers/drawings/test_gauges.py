"""The picture of gauges at the wheel draws each where it is held, and says the wheel's sizes."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from shapely import Polygon

from platewheel.cli.papers.drawings.gauges import gauge_picture
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.gauges.wanted import wanted_gauges
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.gauges.drawn_settings import setting_of
from tests.parts.wheels import WHEELS, plain_wheel

SVG = "{http://www.w3.org/2000/svg}"
BOTH = GaugesSpec(flange=True, wear=True, thickness_mm=6.0)


def picture(wheel: WheelSpec, spec: GaugesSpec = BOTH) -> str:
    setting = setting_of(wheel)
    return gauge_picture(setting, wanted_gauges(spec, setting, 0.0))


def plates(svg: str) -> list[tuple[Polygon, list[Polygon]]]:
    """Of each panel the gauge, bites as chords, and ring and flange."""
    found = []
    for panel in ElementTree.fromstring(svg).findall(f"{SVG}g"):
        path = panel.findall(f"{SVG}path")[0].get("d", "")
        ends = re.findall(r"(-?[0-9.]+) (-?[0-9.]+)(?=[A-Z])", path)
        shapes = [
            Polygon([tuple(map(float, pair.split(","))) for pair in one.get("points", "").split()])
            for one in panel.findall(f"{SVG}polygon")
            if one.findtext(f"{SVG}title") in ("tread", "flange")
        ]
        found.append((Polygon([(float(x), float(y)) for x, y in ends]), shapes))
    return found


@pytest.mark.parametrize("name", sorted(WHEELS))
def test_no_gauge_is_drawn_in_the_wheel_and_each_touches_it(name: str) -> None:
    panels = plates(picture(WHEELS[name]))
    assert len(panels) == 3
    for gauge, shapes in panels:
        assert len(shapes) == 2
        assert all(gauge.intersection(shape).area < 0.02 for shape in shapes)
        assert min(gauge.distance(shape) for shape in shapes) < 0.01


def test_it_says_angle_depth_and_limits() -> None:
    svg = picture(plain_wheel(flange_thickness_mm=6.0))
    for words in (">70\u00b0<", ">15<", ": 16 deep<", ": 4.5 thick<"):
        assert words in svg


def test_a_job_without_gauges_of_the_flange_has_no_picture() -> None:
    assert picture(plain_wheel(), GaugesSpec(track=True, thickness_mm=6.0)) == ""
    assert len(plates(picture(plain_wheel(), GaugesSpec(flange=True, thickness_mm=6.0)))) == 1
