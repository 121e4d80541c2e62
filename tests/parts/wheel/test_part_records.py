"""The record of each kind of part: what it asks of a plate, what is written beside it, its look.

Areas and edges against the blank that is cut, plate taken against closed forms in the test.
"""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.assembly import wheel_parts, wheel_sections
from platewheel.parts.wheel.flange import FLANGE, slant_radii_mm
from platewheel.parts.wheel.hub_disc import DISC, disc_diameter_mm
from platewheel.parts.wheel.hub_tube import TUBE
from platewheel.parts.wheel.kinds import KINDS, WELD_COLOUR, kind_of, kinds_of
from platewheel.parts.wheel.part import Cut, PartKind
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import TREAD
from tests.parts.wheels import plain_wheel

SPACING = 7.0


def cut_of(kind: PartKind, spec: WheelSpec) -> Cut:
    assert kind.cut is not None
    return kind.cut(spec)


def blank_of(kind: PartKind, spec: WheelSpec) -> Blank:
    blank = kind.parts(spec)[0].blank
    assert blank is not None
    return blank


@pytest.mark.parametrize("kind", [TREAD, DISC, FLANGE], ids=lambda kind: kind.name)
@pytest.mark.parametrize("segments", [1, 3])
def test_a_cut_counts_the_blank(kind: PartKind, segments: int) -> None:
    spec = plain_wheel(tread_from="sheet", flange_segments=segments, vent_count=4)
    cut, blank = cut_of(kind, spec), blank_of(kind, spec)
    assert cut.area_mm2 == pytest.approx(blank.area_mm2)
    assert cut.edge_mm == pytest.approx(blank.cut_length_mm)
    assert cut.pierces == 1 + len(blank.holes)
    assert cut.count == sum(part.count_per_wheel for part in kind.parts(spec))
    assert kind.thickness_mm(spec) == blank.thickness_mm
    assert getattr(spec, kind.thickness_key) == blank.thickness_mm


def test_discs_of_a_taper_count_as_the_larger() -> None:
    spec = plain_wheel(tread_from="sheet", tread_taper_1_in=20.0)
    larger = max(part.blank.area_mm2 for part in DISC.parts(spec) if part.blank)
    assert cut_of(DISC, spec).area_mm2 == pytest.approx(larger)
    assert cut_of(DISC, spec).count == 2
    assert [part.count_per_wheel for part in DISC.parts(spec)] == [1, 1]


def test_a_disc_takes_a_cell_of_packed_circles() -> None:
    """A hexagon about a circle of diameter d has sqrt(3) / 2 d^2 (Thue)."""
    spec = plain_wheel()
    d = disc_diameter_mm(spec, "field") + SPACING
    assert cut_of(DISC, spec).room_mm2(SPACING) == pytest.approx(math.sqrt(3) / 2 * d**2)


def test_a_strip_takes_its_half_of_the_spacing_all_round() -> None:
    spec = plain_wheel(tread_from="sheet")
    blank = blank_of(TREAD, spec)
    long, wide = blank.sizes["length_mm"], blank.sizes["width_mm"]
    room = cut_of(TREAD, spec).room_mm2(SPACING)
    assert room == pytest.approx(long * wide + (long + wide) * SPACING)


def test_a_flange_in_one_piece_holds_a_disc_as_thick() -> None:
    alike = plain_wheel(flange_segments=1, flange_thickness_mm=6.0, disc_thickness_mm=6.0)
    outer = slant_radii_mm(alike)[1]
    circle = math.sqrt(3) / 2 * (2 * outer + SPACING) ** 2
    disc = cut_of(DISC, alike).room_mm2(SPACING)
    assert cut_of(FLANGE, alike).room_mm2(SPACING) == pytest.approx(circle - disc)
    other = plain_wheel(flange_segments=1, flange_thickness_mm=6.0, disc_thickness_mm=5.0)
    assert cut_of(FLANGE, other).room_mm2(SPACING) == pytest.approx(circle)


def test_short_segments_are_stacked() -> None:
    """Chord of the outer arc by the shift that keeps the spacing at the ends of two arcs."""
    spec = plain_wheel(flange_segments=4)
    inner, outer = slant_radii_mm(spec)
    half = math.radians(blank_of(FLANGE, spec).sizes["sweep_deg"]) / 2
    chord, shift = 2 * outer * math.sin(half), (outer - inner + SPACING) / math.cos(half)
    assert cut_of(FLANGE, spec).room_mm2(SPACING) == pytest.approx(chord * shift)


def test_two_segments_take_half_a_circle_each_at_most() -> None:
    spec = plain_wheel(flange_segments=2, flange_angle_deg=70.0)
    outer = slant_radii_mm(spec)[1]
    half = math.sqrt(3) / 4 * (2 * outer + SPACING) ** 2
    assert cut_of(FLANGE, spec).room_mm2(SPACING) == pytest.approx(half)


def test_what_is_written_beside_a_part() -> None:
    spec = plain_wheel(flange_segments=3, vent_count=4)
    shown = {one.key: one for kind in KINDS for one in kind.shown(spec, lambda mm: f"<{mm:g}>")}
    disc = disc_diameter_mm(spec, "gauge")
    assert shown["disc-gauge"].rows == (
        "gauge disc",
        f"Ø<{disc:g}>",
        f"<{spec.disc_thickness_mm:g}> thick",
        f"4 vents Ø<{spec.vent_diameter_mm:g}>",
    )
    assert shown["flange"].rows == (
        "flange, 3 pieces",
        f"Ø<{spec.over_flange_diameter_mm:g}> over it",
        f"<{spec.flange_thickness_mm:g}> thick, {spec.flange_angle_deg:g}°",
    )
    assert shown["tread"].rows == (
        "tread ring",
        f"Ø<{spec.tread_diameter_mm:g}>",
        f"<{spec.tread_width_mm:g}> × <{spec.tread_thickness_mm:g}>",
    )
    assert shown["hub-tube"].rows == (
        "hub tube",
        f"Ø<{spec.hub_tube_outside_mm:g}> / Ø<{spec.hub_bore_mm:g}>",
        f"<{spec.hub_tube_length_mm:g}> long",
    )
    radii = {key: one.radius_mm for key, one in shown.items()}
    assert radii["disc-field"] == disc_diameter_mm(spec, "field") / 2
    assert radii["flange"] == spec.over_flange_diameter_mm / 2
    assert radii["tread"] == spec.tread_diameter_mm / 2
    assert radii["hub-tube"] == spec.hub_tube_outside_mm / 2
    row = sorted(shown.values(), key=lambda one: one.place)
    assert [one.key for one in row] == ["hub-tube", "disc-field", "tread", "disc-gauge", "flange"]
    assert [one.place for one in row] == [0, 1, 2, 3, 4]
    assert shown["flange"].solids == ("flange-1", "flange-2", "flange-3")


def test_no_vents_and_one_piece_are_not_told() -> None:
    spec = plain_wheel(flange_segments=1, vent_count=0)
    (flange,) = FLANGE.shown(spec, str)
    assert flange.rows[0] == "flange"
    assert flange.solids == ("flange",)
    assert all(len(one.rows) == 3 for one in DISC.shown(spec, str))


def test_what_is_formed_fitted_and_sawn() -> None:
    rolled, piped = plain_wheel(tread_from="bar"), plain_wheel(tread_from="pipe")
    forming = TREAD.forming(rolled)
    assert forming is not None
    assert forming.minutes_key == "rolling_minutes"
    assert TREAD.forming(piped) is None
    washer = plain_wheel(flange_angle_deg=90.0)
    assert FLANGE.forming(washer) is None
    cone = FLANGE.forming(plain_wheel(flange_angle_deg=89.9))
    assert cone is not None
    assert cone.minutes_key == "forming_minutes"
    assert [kind.fitted for kind in (TREAD, DISC, FLANGE, TUBE)] == [0, 2, 0, 1]
    assert [kind.cut_from(piped) for kind in KINDS] == ["pipe", "sheet", "sheet", "tube"]
    assert {part.name: part.cut_from for part in wheel_parts(rolled)}["tread"] == "bar"


def test_kinds_are_found_by_the_names_of_their_parts() -> None:
    for kind in KINDS:
        assert all(kind_of(name) is kind for name in kind.names)
        assert kind.rated
    assert kind_of("weld-root") is None
    assert kind_of("flange-2") is FLANGE
    assert DISC.names == ("disc", "disc-field", "disc-gauge")
    bare = plain_wheel(hub_tube_length_mm=0.0, hub_tube_outside_mm=0.0)
    assert kinds_of(bare) == (TREAD, DISC, FLANGE)
    assert {part.steel for part in wheel_parts(bare)} == {bare.steel}
    assert [kind.role for kind in KINDS] == ["runs on the rail", "carries", "guides", "carries"]


def test_looks_stay_apart_and_colours_are_colours() -> None:
    """In grey print neighbours differ by the turn or the pitch of their hatching."""
    looks = [kind.look for kind in KINDS]
    assert sorted(look.layer for look in looks) == [0, 1, 2, 3]
    for a, b in combinations(looks, 2):
        assert (a.hatch_deg, a.hatch_pitch) != (b.hatch_deg, b.hatch_pitch)
        assert math.dist(a.colour, b.colour) > 0.1
    for look in looks:
        assert all(0.3 <= share <= 0.9 for share in look.colour)
        assert max(look.colour) - min(look.colour) <= 0.25  # steel tones
        assert abs(look.hatch_deg) == 45  # ISO 128
        assert 0.25 <= look.hatch_pitch <= 0.7
        assert math.dist(look.colour, WELD_COLOUR) > 0.2
    names = [name for name, _ in wheel_sections(plain_wheel())][:5]
    assert names == ["tread", "flange", "disc-field", "disc-gauge", "hub-tube"]
