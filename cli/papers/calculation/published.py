"""Which formulas are put to numbers from outside, by the tests of `tests/published`."""

from __future__ import annotations

from typing import Final

# file of tests/published -> what it holds the formulas against, and their functions
PUBLISHED: Final = {
    "test_axle_bending": (
        "Gere, Mechanics of Materials, a wagon axle worked in a textbook",
        ("moment_n_mm", "bending_stress_n_mm2", "diameter_for_mm"),
    ),
    "test_bearing_life": (
        "a maker's guide and Shigley, chapter 11",
        ("life_turns", "equivalent_load_n", "axial_factors"),
    ),
    "test_bush_load": ("a bush maker's worked example", ("bush_pressure_n_mm2",)),
    "test_crane_wheels": ("FEM 1.001 as a crane trade page has it", ("crane_limit_n_mm2",)),
    "test_fillet_welds": (
        "EN 1993-1-8 design guides, and line welds after Blodgett",
        ("circle_bending_mm2", "circle_length_mm", "circle_polar_mm3", "fillet_strength_n_mm2"),
    ),
    "test_flange_reach": (
        "published reaches of flanges and plain statics",
        ("lateral_room_mm", "overturning_speed_m_s", "radial_error", "rail_top_reach_mm"),
    ),
    "test_hertz_contact": (
        "textbook problems and tables of contact",
        (
            "contact_modulus_n_mm2",
            "line_half_width_mm",
            "line_pressure_n_mm2",
            "point_half_axes_mm",
            "point_pressure_n_mm2",
        ),
    ),
    "test_iso_9013": ("ISO 9013 as a cutting shop tabulates it", ("limit_deviation_mm",)),
    "test_model_wheel_standard": (
        "the sums of the 7.5 in gauge wheel standard",
        ("check_gauge_mm", "check_span_mm", "least_depth_mm", "least_play_mm", "wheel_check_mm"),
    ),
    "test_nadal": ("published limits of Nadal's formula", ("nadal_limit",)),
    "test_open_tongue": (
        "EN 13232-9, the open tongue of standard gauge",
        ("open_way_mm", "points_yaw", "yawed_back_mm"),
    ),
    "test_push_limits": ("examples of the UK HSE", ("force_n", "people_worth")),
    "test_shakedown": (
        "the elastic stresses below a sliding contact",
        ("line_shakedown", "point_shakedown"),
    ),
    "test_track_loads": ("published impacts of dipped joints", ("impact_n",)),
    "test_versine_and_cant": ("published tables of cant", ("equilibrium_cant_mm", "sagitta_mm")),
    "test_wagon_resistance": ("a handbook of crane travel", ("wheel_factor",)),
    "test_wheel_holding": (
        "Shigley's worked examples and tables",
        (
            "key_pressure_n_mm2",
            "key_shear_n_mm2",
            "press_holding_n",
            "press_hub_stress_n_mm2",
            "press_pressure_n_mm2",
            "screw_holding_n",
        ),
    ),
    "test_zinc_coatings": ("published tables of galvanizers", ("table_hole_mm",)),
}
_OF: Final = {name: words for words, names in PUBLISHED.values() for name in names}


def checked_against(function: str) -> str:
    """What a formula is held against, in words; empty where it is held against nothing."""
    return _OF.get(function, "")
