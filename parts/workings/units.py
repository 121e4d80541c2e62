"""The unit of a quantity: what its name says, or what its term makes of the units in it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from platewheel.parts.workings.terms import Function, ModuleNames, Number, Of, Term, by_module

UNKNOWN: Final = "?"  # of what neither its name nor its term tells
# end of a name -> unit; the longest that fits
SUFFIXES: Final = {
    "n_mm2_m_s": "N/mm2 m/s",
    "n_s_per_m": "N s/m",
    "g_m2": "g/m2",
    "kg_mm3": "kg/mm3",
    "n_per_mm": "N/mm",
    "mm_per_m": "mm/m",
    "n_mm2": "N/mm2",
    "kn_m2": "kN m2",
    "km_per_year": "km/year",
    "mm2_per_km": "mm2/km",
    "per_km": "1/km",
    "per_min": "1/min",
    "km_h": "km/h",
    "m_s": "m/s",
    "n_mm": "N mm",
    "mm2": "mm2",
    "mm3": "mm3",
    "mm4": "mm4",
    "percent": "%",
    "years": "years",
    "deg": "deg",
    "rad": "rad",
    "mm": "mm",
    "kn": "kN",
    "kg": "kg",
    "km": "km",
    "um": "um",
    "m": "m",
    "n": "N",
    "s": "s",
}
RATIOS: Final = frozenset({"share", "shares", "factor", "ratio", "taper", "chord", "count"})
OWN: Final = {  # names that their end would tell wrong, or that have none
    "rim_force_n_mm": "N/mm",
    "tube_force_n_mm": "N/mm",
    "force_n_mm": "N/mm",
    "GRAVITY": "N/kg",
    "KN_M2": "N mm2/(kN m2)",
    "frame_torsion_n_mm2": "N mm2",
    "LBF_N": "N/lbf",
    "flange_angle": "rad",
    "taper_half_angle": "rad",
    "_MM": "mm",
    "yaw": "rad",
    "attack": "rad",
}
# module -> names within its functions whose unit neither they nor their term tells
AT: Final[ModuleNames] = {
    "axle_bending": {"least": "N mm"},
    "axle_fatigue": {"life_safety": ""},
    "axle_strength": {
        "moment": "N mm",
        "deflection_and_slope_1": "mm",
        "deflection_and_slope_2": "rad",
    },
    "axle_turning": {"lean": "rad"},
    "bearing_life": {"life_turns": "turns"},
    "bearings": {"screws": "N", "most": "N"},
    "curve": {"curve": "mm"},
    "curving": {"asked": "", "moment": "mm", "push": "", "net": ""},
    "disc_buckling": {"strip": "mm"},
    "disc_load": {"inertia": "mm4"},
    "flange_contact": {"lost": "mm2/km"},
    "iso_fits": {"low": "um", "limits_1": "mm", "limits_2": "mm", "fit_1": "mm", "fit_2": "mm"},
    "joint": {"speed": "m/s", "k": "N/m", "damped": "", "moved": ""},
    "resistance": {"resistance": ""},
    "shakedown": {"line_shakedown": ""},
    "speed": {"speed": "km/h"},
    "track": {"more": "mm"},
    "travel": {"speed": "m/s"},
    "twist": {"soft": "mm/N", "sinking": "mm/N"},
    "usual_clearance": {"_between": "mm"},
    "weld_strength": {"by_couple": "N/mm", "by_bending": "N/mm", "share": "N"},
    "welder": {"least_current_a": "A"},
    "wheel_holding": {"size": "in", "part": ""},
    "wheel_load": {"squares": "mm2", "along": ""},
}
_BASES: Final[Mapping[str, Mapping[str, float]]] = {
    "": {},
    "rad": {},
    "mm": {"mm": 1},
    "mm2": {"mm": 2},
    "mm3": {"mm": 3},
    "mm4": {"mm": 4},
    "N": {"N": 1},
    "N mm": {"N": 1, "mm": 1},
    "N/mm": {"N": 1, "mm": -1},
    "N/mm2": {"N": 1, "mm": -2},
    "N mm2": {"N": 1, "mm": 2},
    "km": {"km": 1},
    "km/year": {"km": 1, "years": -1},
    "years": {"years": 1},
    "kg": {"kg": 1},
    "N/kg": {"N": 1, "kg": -1},
    "um": {"um": 1},
    "deg": {"deg": 1},
    "%": {"%": 1},
    "m": {"m": 1},
}
_ANGLES: Final = frozenset({"asin", "acos", "atan", "atan2", "rad"})
# numbers that turn one unit into another: what they are in has no unit that can be told
_TURNS: Final = frozenset({1000.0, 2000.0, 1e6, 1e9, 3.6, 60.0, 127.0, 100.0, 12.0, 1e-6, 1e-3})


def unit_at(home: str, name: str) -> str | None:
    """Of a name in a module; None where its end or its term tells."""
    return by_module(AT, home, name)


def unit_of_name(name: str) -> str | None:
    """By its end; None where it says none."""
    if name in OWN:
        return OWN[name]
    low = re.sub(r"_\d+$", "", name.lower())  # one of several
    for end, unit in SUFFIXES.items():
        if low == end or low.endswith("_" + end):
            return unit
    return "" if low.split("_")[-1] in RATIOS else None


def unit_of_term(term: Term) -> str | None:
    """By the units in it; None where they do not tell."""
    found = _bases(term)
    if found is None:
        return None
    if not found:
        return "rad" if _is_angle(term) else ""
    return next((unit for unit, bases in _BASES.items() if bases == found), None)


def _is_angle(term: Term) -> bool:
    """Whether a term without a unit is an angle: an arc, a sum with one, or so many of one."""
    if isinstance(term, Of):
        return term.quantity.unit == "rad"
    if isinstance(term, Number):
        return False
    if isinstance(term, Function):
        like = term.name in ("max", "min", "abs") and any(map(_is_angle, term.parts))
        return term.name in _ANGLES or like
    if term.sign in ("+", "-", "neg"):
        return any(map(_is_angle, term.parts))
    one, other = term.parts
    if term.sign == "×" and isinstance(one, Number):
        one, other = other, one
    return term.sign in ("×", "/") and _is_angle(one) and isinstance(other, Number)


def _bases(term: Term) -> dict[str, float] | None:
    if isinstance(term, Number):
        return None if abs(term.value) in _TURNS else {}
    if isinstance(term, Of):
        bases = _BASES.get(term.quantity.unit)
        return None if bases is None else dict(bases)
    if isinstance(term, Function):
        return _of_function(term)
    parts = [_bases(part) for part in term.parts]
    if term.sign in ("+", "-"):
        return _like(term.parts, parts)
    if term.sign == "neg":
        return parts[0]
    if any(part is None for part in parts):
        return None
    known = [part or {} for part in parts]
    if term.sign == "^":
        power = term.parts[1].value
        return _clean({unit: power * own for unit, own in known[0].items()})
    sign = 1 if term.sign == "×" else -1
    both = {*known[0], *known[1]}
    return _clean({unit: known[0].get(unit, 0) + sign * known[1].get(unit, 0) for unit in both})


def _of_function(term: Function) -> dict[str, float] | None:
    parts = [_bases(part) for part in term.parts]
    if term.name in ("max", "min", "abs", "hypot", "ceil", "floor", "round"):
        return _like(term.parts, parts)
    if term.name == "sqrt":
        return None if parts[0] is None else _clean({u: p / 2 for u, p in parts[0].items()})
    return {"deg": 1} if term.name == "deg" else {}


def _like(parts: tuple[Term, ...], bases: list[dict[str, float] | None]) -> dict[str, float] | None:
    """Of a sum: that of its parts; numbers of the code may be of any unit."""
    known = [one for part, one in zip(parts, bases, strict=True) if not isinstance(part, Number)]
    if not known:
        return {}
    if any(one is None or one != known[0] for one in known):
        return None
    return known[0]


def _clean(bases: dict[str, float]) -> dict[str, float]:
    return {unit: power for unit, power in bases.items() if abs(power) > 1e-9}
