"""The section drawing says the wheel's own numbers, and has a symbol for every weld."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings

from platewheel.cli.papers.drawings.section import section_picture
from platewheel.parts.base.units import Units
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import INSIDE, weld_beads
from tests.parts.drawn_text import outside, overlaps
from tests.parts.wheels import WHEELS, plain_wheel, valid_wheels

SVG = "{http://www.w3.org/2000/svg}"
SMALL = plain_wheel(
    tread_diameter_mm=110,
    tread_width_mm=32,
    tread_thickness_mm=5,
    flange_depth_mm=8,
    flange_thickness_mm=4,
    disc_thickness_mm=4,
    hub_bore_mm=20,
    hub_tube_outside_mm=0,
    hub_tube_length_mm=0,
    vent_circle_mm=80,
    vent_diameter_mm=8,
)
LARGE = plain_wheel(
    tread_diameter_mm=813,
    tread_width_mm=110,
    tread_thickness_mm=12.5,
    tread_from="pipe",
    flange_depth_mm=25,
    flange_segments=6,
    hub_bore_mm=90,
    hub_tube_outside_mm=127,
    hub_tube_length_mm=140,
    vent_circle_mm=700,
)
ALL = WHEELS | {"small": SMALL, "large": LARGE}
NAMES = sorted(ALL)


def texts(group: ElementTree.Element) -> str:
    return " ".join(text.text or "" for text in group.iter(f"{SVG}text"))


def dimensions(spec: WheelSpec, units: Units = "mm") -> dict[str, str]:
    """Text of every dimension of the drawing, by its key; a key comes once."""
    tree = ElementTree.fromstring(section_picture(spec, units))
    groups = [g for g in tree.iter(f"{SVG}g") if g.get("class") == "dimension"]
    assert len({g.get("data-key") for g in groups}) == len(groups)
    return {g.get("data-key", ""): texts(g) for g in groups}


def wanted(spec: WheelSpec) -> dict[str, list[float]]:
    """What the drawing must say, from the job's own keys by plain arithmetic."""
    s = spec
    width = s.tread_width_mm
    clear = width - s.disc_field_inset_mm - s.disc_gauge_inset_mm - 2 * s.disc_thickness_mm
    numbers = {
        "tread_diameter_mm": [s.tread_diameter_mm],
        "over_flange_diameter_mm": [s.tread_diameter_mm + 2 * s.flange_depth_mm],
        "tread_width_mm": [width],
        "tread_thickness_mm": [s.tread_thickness_mm],
        "flange_depth_mm": [s.flange_depth_mm],
        "flange_angle_deg": [s.flange_angle_deg],
        "flange_thickness_mm": [s.flange_thickness_mm],
        "disc_thickness_mm": [2, s.disc_thickness_mm],
        "disc_spacing_mm": [clear],
        "hub_bore_mm": [s.hub_bore_mm],
    }
    if s.fit_clearance_mm:
        numbers["fit_clearance_mm"] = [s.fit_clearance_mm]
    if s.disc_field_inset_mm:
        numbers["disc_field_inset_mm"] = [s.disc_field_inset_mm]
    if s.disc_gauge_inset_mm:
        numbers["disc_gauge_inset_mm"] = [s.disc_gauge_inset_mm]
    if s.vent_count:
        numbers["vent_circle_mm"] = [s.vent_count, s.vent_diameter_mm, s.vent_circle_mm]
    if s.hub_tube_length_mm:
        box = clear + 2 * s.disc_thickness_mm
        numbers["hub_tube_outside_mm"] = [s.hub_tube_outside_mm]
        numbers["hub_tube_length_mm"] = [s.hub_tube_length_mm]
        numbers["tube_stands_out_mm"] = [(s.hub_tube_length_mm - box) / 2]
    if not s.tread_taper_1_in:
        bore = s.tread_diameter_mm - 2 * s.tread_thickness_mm
        numbers["disc_diameter_mm"] = [bore - 2 * s.fit_clearance_mm]
    return numbers


@pytest.mark.parametrize("name", NAMES)
def test_dimensions_are_the_wheels_numbers(name: str) -> None:
    spec = ALL[name]
    said = dimensions(spec)
    for key, numbers in wanted(spec).items():
        read = [float(number) for number in re.findall(r"\d+(?:\.\d+)?", said.pop(key))]
        assert read == pytest.approx(numbers, abs=0.051), key
    rest = {"over_all_width_mm", "disc_diameter_mm", "field_edge_diameter_mm"}
    assert set(said) <= rest | {"gauge_disc_diameter_mm"}


def test_a_taper_has_the_diameters_of_both_edges() -> None:
    said = dimensions(ALL["tapered"])  # 1 in 20 over 60 mm: 3 mm on the radius
    assert (said["tread_diameter_mm"], said["field_edge_diameter_mm"]) == ("Ø300", "Ø294")
    assert "gauge disc" in said["gauge_disc_diameter_mm"]


@pytest.mark.parametrize("name", NAMES)
def test_inches_are_the_same_sizes_to_a_64th(name: str) -> None:
    spec = ALL[name]
    said = dimensions(spec, "inch")
    for key in ("tread_diameter_mm", "tread_width_mm", "flange_depth_mm", "hub_bore_mm"):
        words = said[key].removeprefix("Ø").removesuffix(" in").split()
        assert abs(float(sum(map(Fraction, words))) * 25.4 - getattr(spec, key)) <= 25.4 / 128


def symbols(spec: WheelSpec) -> dict[str, tuple[set[str], str]]:
    """For each weld's symbol the parts it is drawn of, and its text."""
    tree = ElementTree.fromstring(section_picture(spec))
    return {
        g.get("data-weld", ""): (
            {part.get("data-part", "") for part in g.iter(f"{SVG}g")} - {""},
            texts(g),
        )
        for g in tree.iter(f"{SVG}g")
        if g.get("class") == "weld"
    }


@pytest.mark.parametrize("name", NAMES)
def test_every_weld_has_its_symbol(name: str) -> None:
    spec = ALL[name]
    drawn = symbols(spec)
    beads = {re.sub(r"(seam-flange)-\d+", r"\1", bead.name) for bead in weld_beads(spec)}
    joined = {"weld-seam-tread"} if spec.tread_from != "pipe" else set()  # gap or no gap
    inside = {bead for bead in beads if bead.endswith(INSIDE)}  # told with the bead outside
    assert set(drawn) == beads - inside | joined
    for weld, (kinds, text) in drawn.items():
        # ISO 2553, system A: every symbol has a reference line and, as none of these welds is
        # symmetrical, the dashed identification line
        assert {"reference", "identification"} <= kinds, weld
        fillet = weld.startswith(("weld-disc", "weld-tube"))
        assert ("fillet" in kinds) == fillet, weld
        assert ("square-butt" in kinds) == ("seam" in weld), weld
        assert ("single-v" in kinds) == (weld == "weld-root"), weld
        assert ("all-round" in kinds) == ("seam" not in weld), weld
        two = weld + INSIDE in inside
        assert ("other-fillet" in kinds) == two, weld
        assert ("other-backing" in kinds) == (weld == "weld-root" and spec.root_backed), weld
        if fillet and "little room" not in text:
            assert text.split() == [f"a{spec.weld_throat_mm:g}"] * (2 if two else 1)
        if weld == "weld-seam-flange":
            assert ("flush" in kinds) == (spec.seam == "dressed")


def test_a_fillet_without_room_shows_the_throat_that_fits() -> None:
    _, text = symbols(ALL["short-weld-room"])["weld-disc-field"]
    leg, room = 3 * math.sqrt(2), 2.0  # height of a right triangle over its long side
    assert float(text.split()[0].removeprefix("a")) == pytest.approx(
        leg * room / math.hypot(leg, room), abs=0.051
    )


def test_a_fillets_upright_leg_is_on_the_left() -> None:
    """ISO 2553: in the triangle of a fillet the upright is always drawn on the left."""
    tree = ElementTree.fromstring(section_picture(plain_wheel()))
    fillets = [g for g in tree.iter(f"{SVG}g") if g.get("data-part") == "fillet"]
    assert len(fillets) == 4
    for fillet in fillets:
        numbers = re.findall(r"-?[\d.]+", fillet.findall(f"{SVG}path")[0].get("d", ""))
        (x0, _), (x1, _), (x2, _) = zip(*[iter(map(float, numbers))] * 2, strict=True)
        assert x0 == x1 < x2


def test_hatchings_differ_in_more_than_colour() -> None:
    tree = ElementTree.fromstring(section_picture(plain_wheel()))
    patterns = [(p.get("width"), p.get("patternTransform")) for p in tree.iter(f"{SVG}pattern")]
    assert len(patterns) == len(set(patterns)) == 4


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("name", NAMES)
def test_no_text_lies_on_another_or_out_of_the_picture(name: str, units: Units) -> None:
    svg = section_picture(ALL[name], units)
    assert overlaps(svg) == []
    assert outside(svg) == []


@given(valid_wheels())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_any_wheel_has_a_drawing_that_reads(spec: WheelSpec) -> None:
    svg = section_picture(spec)
    assert overlaps(svg) == []
    assert outside(svg) == []
