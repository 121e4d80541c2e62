"""Advice in trade words: `wheel.weld_throat_mm = 5` on paper is a fillet throat of 5 mm.

Who holds the paper has no job file before them: no name of a key stands on it.
"""

from __future__ import annotations

import re
from functools import cache

from platewheel.parts.base.spec_model import unit_of

# what a person calls it; keys that are not here are told by their own words
WORDS = {
    "job.ledger": "ledger of the rack",
    "job.wheels": "wheels to make",
    "costs.steel_price_per_kg": "price of steel",
    "costs.tube_price_per_kg": "price of tube",
    "costs.filler_price_per_kg": "price of filler",
    "costs.gas_price_per_m3": "price of gas",
    "costs.galvanizing_price_per_kg": "price of galvanizing",
    "costs.zinc_price_per_kg": "price of zinc",
    "costs.paint_price_per_m2": "price of paint",
    "costs.bearing_price": "price of a bearing",
    "costs.wheel_holding_price": "price of what holds a wheel",
    "cutting.process": "way of cutting",
    "axle.back_to_back_mm": "wheels back to back",
    "axle.bearing_name": "bearing",
    "axle.diameter_mm": "axle diameter",
    "axle.bearing": "kind of bearing",
    "axle.bearing_centres_mm": "between the bearings",
    "axle.body_diameter_mm": "axle between the wheels",
    "axle.journal_diameter_mm": "axle in the bearings",
    "axle.bush_length_mm": "length of the bushes",
    "axle.bush_material": "material of the bushes",
    "axle.steel": "steel of the axle",
    "axle.wheels_on_axle": "wheels on their axle",
    "axle.retention": "way to hold the wheel",
    "costs.labour_price_per_h": "price of an hour's work",
    "cutting.price_per_h": "price of an hour's cutting",
    "gauges.steel": "steel of the gauges",
    "shop.lathe": "lathe in the shop",
    "shop.prebend": "ends bent before they are rolled",
    "shop.roll_diameter_mm": "top roll",
    "shop.roll_most_thickness_mm": "thickest plate of your roller",
    "shop.weld_reach_mm": "room for nozzle or rod",
    "shop.welder_most_a": "largest current of the welder",
    "track.cant_mm": "cant",
    "track.check_rail_flangeway_mm": "flangeway at check rails",
    "track.flangeway_depth_mm": "depth of the flangeway",
    "track.flangeway_mm": "flangeway",
    "track.gauge_mm": "gauge",
    "track.gauge_widening_mm": "gauge widening",
    "track.heel_gap_mm": "gap at the heel",
    "track.joint_gap_mm": "gap at rail joints",
    "track.joint_step_mm": "step at rail joints",
    "track.min_curve_radius_m": "tightest curve",
    "track.rail_head_width_mm": "rail head",
    "track.rail_head_radius_mm": "radius of the rail head",
    "track.steepest_gradient_percent": "steepest gradient",
    "track.gauge_tolerance_mm": "gauge tolerance",
    "track.switch_opening_mm": "opening at the toe",
    "use.consequence": "consequence of a broken wheel",
    "use.flange_wear_mm": "wear of the flange",
    "use.push_force_n": "push",
    "use.wear_allowance_mm": "wear of the tread",
    "use.years": "years of use",
    "wagon.centre_of_gravity_mm": "height of the centre of gravity",
    "wagon.load_unevenness": "unevenness of the load",
    "wagon.max_speed_km_h": "speed",
    "wagon.payload_kg": "payload",
    "wagon.shock_factor": "shock factor",
    "wagon.suspension": "suspension",
    "wagon.wheelbase_mm": "wheelbase",
    "use.lateral_share": "sideways share",
    "wheel.disc_field_inset_mm": "inset of the field disc",
    "wheel.disc_gauge_inset_mm": "inset of the gauge disc",
    "wheel.disc_thickness_mm": "disc thickness",
    "wheel.first_disc_both_sides": "first disc welded on both sides",
    "wheel.fit_clearance_mm": "fit clearance",
    "wheel.flange_angle_deg": "flange angle",
    "wheel.flange_depth_mm": "flange depth",
    "wheel.flange_thickness_mm": "flange thickness",
    "wheel.hub_bore_mm": "hub bore",
    "wheel.hub_tube_length_mm": "length of the hub tube",
    "wheel.hub_tube_outside_mm": "outside of the hub tube",
    "wheel.root_backed": "flange root welded from behind",
    "wheel.root_weld_mm": "leg of the root weld",
    "wheel.seam": "ring seam",
    "wheel.seam_gap_mm": "gap of the seams",
    "wheel.steel": "steel of the wheel",
    "wheel.tread_diameter_mm": "tread diameter",
    "wheel.tread_thickness_mm": "ring thickness",
    "wheel.tread_width_mm": "tread width",
    "wheel.vent_circle_mm": "circle of the vents",
    "wheel.vent_count": "vents in each disc",
    "wheel.vent_diameter_mm": "vent diameter",
    "wheel.weld_throat_mm": "fillet throat",
}
# a table of the job file that may stand more than once
TABLES = {
    "stock": "list of plates",
    "offcut": "list of offcuts",
    "bar": "list of flat bars",
    "round": "list of round bars",
    "pipe": "list of pipes",
    "extra": "list of own parts",
    "way": "list of the way",
    "cut_speed": "chart of cutting speeds",
}
_TABLE = re.compile(rf"\[\[({'|'.join(TABLES)})\]\]")
_UNIT = {"degrees": "deg", "percent": "%", "(1 in this many)": "", "a km": "a km"}
_NAME = r"(?<![\w./-])(?:[a-z_]+(?:\[\d+\])?\.)?[a-z]\w*"
_SET = re.compile(rf"(?P<key>{_NAME}) = (?P<value>\"[^\"]*\"|-?\d+(?:\.\d+)?|true|false)(?! mm)")
_BARE = re.compile(rf"{_NAME}(?![\w-]|\.\w)")


def plain(text: str) -> str:
    """The text with each `section.key = value`, and each key alone, in words with its unit; names
    and files that are no keys stay, and what stands between backticks, which is typed as it is."""
    parts = text.split("`")
    return "`".join(
        one if at % 2 else _BARE.sub(_named, _SET.sub(_said, _tables(one)))
        for at, one in enumerate(parts)
    )


def _tables(text: str) -> str:
    return _TABLE.sub(lambda found: TABLES[found[1]], text)


def _named(found: re.Match[str]) -> str:
    return _called(found[0]) or found[0]


def _said(found: re.Match[str]) -> str:
    key, value = found["key"], found["value"].strip('"')
    called = _called(key)
    if not called:
        return found[0]
    if value in ("true", "false"):
        return called if value == "true" else f"no {called}"
    if found["value"].startswith('"'):
        return f"{called}: {value}"
    return f"{called} of {value} {_unit(key)}".rstrip()


def _called(key: str) -> str:
    """What a key is called: by the table, or by its own words without section and unit; nothing
    where it is no key of the job file."""
    section, _, name = re.sub(r"\[\d+\]", "", key).rpartition(".")
    if section:
        homes = [section] if name in _keys().get(section, ()) else []
    else:  # `steel` and `years` are words too
        homes = [one for one, names in _keys().items() if name in names] if "_" in name else []
    if not homes:
        return ""
    for home in homes:
        if f"{home}.{name}" in WORDS:
            return WORDS[f"{home}.{name}"]
    unit = next((end for end in ("_mm", "_kg", "_m", "_deg", "_n") if name.endswith(end)), "")
    return name.removesuffix(unit).replace("_", " ")


@cache
def _keys() -> dict[str, frozenset[str]]:
    """Keys of the sections of a job file."""
    from platewheel.cli.schema.job_sections import KINDS

    return {name: frozenset(spec.model_fields) for name, spec in KINDS.items()}


def _unit(key: str) -> str:
    if key.endswith("_n"):
        return "N"
    unit = unit_of(key)
    return _UNIT.get(unit, unit)
