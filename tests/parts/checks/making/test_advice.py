"""What the checks of making, galvanizing and the wheelset advise, followed: the check passes."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.galvanizing.hollows import overlap, sealed_hollow
from platewheel.parts.checks.galvanizing.plate_webs import vent_beside_weld, vent_spacing, vent_web
from platewheel.parts.checks.galvanizing.thickness_ratio import thickness_ratio
from platewheel.parts.checks.galvanizing.vent_tables import vent_diagonal, vent_table
from platewheel.parts.checks.galvanizing.vents import vent_number, vent_place, vent_size
from platewheel.parts.checks.making.cutting import hole_by_process
from platewheel.parts.checks.making.rolling import roll_diameter, roll_thickness, seam_peak
from platewheel.parts.checks.making.tolerance import fit_allowance
from platewheel.parts.checks.making.weld_access import (
    fillet_gap,
    root_groove,
    seam_gap,
    torch_access,
)
from platewheel.parts.checks.making.weld_room import root_room, weld_room
from platewheel.parts.checks.making.welder import weld_current
from platewheel.parts.checks.wheelset.wheel_retention import key_wall
from platewheel.parts.wheelset.assembly import wheelset
from tests.parts.checks.advice import (
    Advice,
    Keys,
    assert_heeded,
    assert_no_more_than_needed,
    count,
    keys_set,
    more,
    to,
)
from tests.parts.checks.running.settings import running_setting

FOR_THIN, FOR_THICK = "disc_thickness_mm = #", "or wheel.tread_thickness_mm = #$"
ADVICE: dict[str, Advice] = {
    "vent-number: use": Advice(vent_number, "vent_count = # or 4", count("vent_count"), None),
    "vent-number: set": Advice(vent_number, "vent_count = #", count("vent_count"), None),
    "vent-size: hole": Advice(vent_size, "diameter_mm = # or", to("vent_diameter_mm")),
    "vent-place: circle": Advice(vent_place, "circle_mm = #", to("vent_circle_mm")),
    "vent-table: hole": Advice(vent_table, "diameter_mm = #", to("vent_diameter_mm")),
    "vent-diagonal: hole": Advice(vent_diagonal, "_mm = #", to("vent_diameter_mm"), 1.1),
    "vent-diagonal: number": Advice(vent_diagonal, "count = #", count("vent_count"), None),
    "sealed-hollow: vents": Advice(sealed_hollow, "vent_count = #", count("vent_count"), None),
    "overlap: disc": Advice(overlap, "thickness_mm = #$", to("disc_thickness_mm")),
    "thickness-ratio: thin": Advice(
        thickness_ratio, FOR_THIN, to("disc_thickness_mm", "flange_thickness_mm")
    ),
    "thickness-ratio: thick": Advice(thickness_ratio, FOR_THICK, to("tread_thickness_mm")),
    "vent-web: rim": Advice(vent_web, "circle_mm = #", to("vent_circle_mm")),
    "vent-web: hub": Advice(vent_web, "circle_mm = #", to("vent_circle_mm")),
    "vent-spacing: smaller": Advice(vent_spacing, "diameter_mm = #", to("vent_diameter_mm")),
    "vent-beside-weld: rim": Advice(vent_beside_weld, "circle_mm = #", to("vent_circle_mm")),
    "roll-diameter: roll": Advice(
        roll_diameter, "roll_diameter_mm = # or", to("roll_diameter_mm"), 2.0
    ),
    "roll-thickness: ring": Advice(
        roll_thickness, "tread_thickness_mm = # or", to("tread_thickness_mm")
    ),
    "roll-thickness: both": Advice(
        roll_thickness,
        "flange_thickness_mm = # or",
        to("tread_thickness_mm", "flange_thickness_mm"),
    ),
    "hole-by-process: vents": Advice(
        hole_by_process, "vent_diameter_mm = # or", to("vent_diameter_mm")
    ),
    "fit-allowance: clearance": Advice(fit_allowance, "_mm = #", to("fit_clearance_mm"), 0.1),
    "torch-access: tube": Advice(torch_access, ": # mm less", more("hub_tube_length_mm", -2), 4.0),
    "root-groove: steeper": Advice(root_groove, "angle_deg = #", to("flange_angle_deg"), 0.2),
    "seam-gap: gap": Advice(seam_gap, "gap_mm = #", to("seam_gap_mm"), None),
    "seam-peak: bent": Advice(seam_peak, "prebend = true()", keys_set(prebend=True), None),
    "seam-peak: thinner": Advice(seam_peak, "thickness_mm = #$", to("tread_thickness_mm"), 1.0),
    "fillet-gap: clearance": Advice(fillet_gap, "_mm = # or less", to("fit_clearance_mm")),
    "weld-room: throat": Advice(weld_room, "throat_mm = #", to("weld_throat_mm"), 0.02),
    "root-room: leg": Advice(root_room, "root_weld_mm = #", to("root_weld_mm")),
    "root-room: plates": Advice(
        root_room,
        "flange_thickness_mm = #",
        to("tread_thickness_mm", "flange_thickness_mm"),
        None,
    ),
    "weld-current: welder": Advice(weld_current, "most_a = # or more", to("welder_most_a"), 1.0),
}
LARGE = {"tread_diameter_mm": 500.0, "vent_circle_mm": 420.0}
THICK_DISCS = {"disc_thickness_mm": 30.0, "tread_width_mm": 100.0, "hub_tube_length_mm": 110.0}

# Sound advice, by name of its line above; the plain wheel with these keys.
SOUND: list[tuple[str, Keys]] = [
    ("vent-number: use", {"vent_count": 3}),
    ("vent-number: set", {"vent_count": 0, "coating": "bare"}),
    ("vent-number: set", {"vent_count": 0, "hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0}),
    ("vent-size: hole", {"vent_diameter_mm": 3.0}),
    ("vent-size: hole", {"vent_diameter_mm": 9.0}),
    ("vent-place: circle", {}),
    ("vent-place: circle", {"vent_circle_mm": 150.0}),
    ("vent-table: hole", {"vent_diameter_mm": 11.0}),
    ("vent-diagonal: hole", {}),
    ("vent-diagonal: number", {}),
    ("sealed-hollow: vents", {"vent_count": 0}),
    ("overlap: disc", LARGE | THICK_DISCS | {"tread_thickness_mm": 12.0}),
    ("thickness-ratio: thin", {"tread_thickness_mm": 20.0, "flange_thickness_mm": 10.0}),
    ("thickness-ratio: thick", {"tread_thickness_mm": 20.0}),
    ("vent-web: rim", {"tread_thickness_mm": 20.0}),
    ("vent-web: hub", {"vent_circle_mm": 80.0}),
    ("vent-spacing: smaller", {"vent_count": 20, "vent_circle_mm": 103.0}),
    ("vent-beside-weld: rim", {"fit_clearance_mm": 0.54, "tread_thickness_mm": 20.0}),
    ("roll-diameter: roll", {"roll_diameter_mm": 200.0}),
    ("roll-thickness: ring", {"tread_thickness_mm": 20.0}),
    ("roll-thickness: both", {"tread_thickness_mm": 20.0, "flange_thickness_mm": 15.0}),
    ("seam-peak: bent", {"prebend": False}),
    ("seam-peak: thinner", {"tread_thickness_mm": 40.0, "vent_circle_mm": 150.0}),
    ("hole-by-process: vents", {"vent_diameter_mm": 3.0}),
    ("hole-by-process: vents", {"vent_diameter_mm": 5.0, "process": "laser"}),
    ("fit-allowance: clearance", {}),
    ("torch-access: tube", {"hub_tube_length_mm": 241.0}),
    ("root-groove: steeper", {"flange_angle_deg": 56.0}),
    ("seam-gap: gap", {"seam_gap_mm": 5.0}),
    ("seam-gap: gap", {"seam_gap_mm": 0.5}),
    ("fillet-gap: clearance", {"fit_clearance_mm": 1.4}),
    ("weld-room: throat", {"disc_field_inset_mm": 4.0}),
    ("root-room: leg", {"root_weld_mm": 10.0}),
    ("root-room: plates", {"root_weld_mm": 9.0}),
    ("weld-current: welder", {"welder_most_a": 90.0}),
]
WRONG = [
    ("vent-diagonal: number", LARGE),
    ("roll-diameter: roll", {"roll_diameter_mm": 250.0, "tread_thickness_mm": 7.0}),
    ("overlap: disc", LARGE | THICK_DISCS),
    ("torch-access: tube", {"hub_tube_length_mm": 240.0}),
    ("root-groove: steeper", {"flange_angle_deg": 46.8}),
    ("vent-beside-weld: rim", {"vent_diameter_mm": 10.0, "vent_circle_mm": 270.0}),
    ("vent-web: rim", {"fit_clearance_mm": 0.54, "tread_thickness_mm": 20.0}),
    ("vent-web: hub", {"vent_circle_mm": 80.0, "fit_clearance_mm": 0.54}),
    ("vent-spacing: smaller", {"vent_count": 20, "vent_circle_mm": 129.0}),
    ("thickness-ratio: thin", {"tread_thickness_mm": 20.0}),
]


@pytest.mark.parametrize(("name", "keys"), [*SOUND, *WRONG])
def test_advice_followed_passes(name: str, keys: Keys) -> None:
    assert_heeded(ADVICE[name], keys)


@pytest.mark.parametrize(
    ("name", "keys"), [case for case in SOUND if ADVICE[case[0]].slack is not None]
)
def test_advice_asks_for_no_more_than_needed(name: str, keys: Keys) -> None:
    assert_no_more_than_needed(ADVICE[name], keys)


def test_each_line_of_the_table_is_followed() -> None:
    assert {name for name, _ in SOUND} == set(ADVICE)


def test_a_roll_that_only_just_fails_is_left_with_a_warning() -> None:
    """The first advice is for 1.1 of the roll, the surer 1.5 is told next; both of the check."""
    assert_heeded(ADVICE["roll-diameter: roll"], {"roll_diameter_mm": 300.0}, leaves="warn")


def test_a_hub_as_thick_as_advised_has_wall_over_its_keyway() -> None:
    thin = running_setting(hub_tube_outside_mm=42.0)
    result = key_wall(thin, wheelset(thin))
    assert result is not None
    assert result.verdict == "fail"
    advised = float(result.says.split("hub_tube_outside_mm = ")[1].split(" ")[0])
    for outside, verdict in ((advised, "pass"), (advised - 1.0, "fail")):
        setting = running_setting(hub_tube_outside_mm=outside)
        result = key_wall(setting, wheelset(setting))
        assert result is not None
        assert result.verdict == verdict
