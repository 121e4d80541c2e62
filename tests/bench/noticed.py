"""Which tests are to notice the mutants of which module. Read by tests.bench.mutants.

Installed module -> test files, the quickest first.
"""

from __future__ import annotations

RATING, STRESS, LOADS, WHEEL, REFIT = (
    f"tests/parts/{room}/test_" for room in ("rating", "stress", "loads", "wheel", "refit")
)
STRENGTH, RUNNING = (f"tests/parts/checks/{room}/test_" for room in ("strength", "running"))
CUTTING, VERIFY, GEOMETRY = (
    f"tests/nesting/{room}/test_" for room in ("cutting", "verify", "geometry")
)


def _of(room: str, *names: str) -> tuple[str, ...]:
    return tuple(f"{room}{name}.py" for name in names)


_WELDS = _of(STRENGTH, "weld_limits", "strength", "advice")
_DISCS = _of(STRENGTH, "disc_limits", "strength", "advice")
_CURVE = _of(RUNNING, "curve_limits", "curve", "advice")

MODULES: dict[str, tuple[str, ...]] = {
    "platewheel.parts.stress.throat": (f"{STRESS}throat.py",),
    "platewheel.parts.rating.fatigue_limit": (f"{RATING}fatigue_limit.py",),
    "platewheel.parts.rating.rate": (f"{RATING}rate.py",),
    "platewheel.parts.rating.static_limit": (f"{RATING}static_limit.py", f"{RATING}vent_edge.py"),
    "platewheel.parts.rating.detail": (f"{RATING}detail.py",),
    "platewheel.parts.rating.miner": (f"{RATING}detail.py", f"{RATING}slip_torque.py"),
    "platewheel.parts.rating.endurance": (f"{RATING}endurance.py", f"{RATING}rate.py"),
    "platewheel.parts.rating.payload": (f"{RATING}payload.py",),
    "platewheel.parts.rating.seam_limit": (f"{RATING}seam_limit.py",),
    "platewheel.parts.rating.slip_torque": (f"{RATING}slip_torque.py",),
    "platewheel.parts.rating.vent_edge": (f"{RATING}vent_edge.py", f"{RATING}vented_disc.py"),
    "platewheel.parts.rating.vented_disc": (f"{RATING}vented_disc.py",),
    "platewheel.parts.loads.twist": _of(LOADS, "twist", "wheel_load"),
    "platewheel.parts.loads.joint": _of(LOADS, "joint", "wheel_load"),
    "platewheel.parts.loads.over_joint": (
        *_of(LOADS, "joint"),
        *_of(RUNNING, "track_limits", "rough_track"),
    ),
    "platewheel.parts.making.springback": ("tests/parts/making/test_springback.py",),
    "platewheel.parts.checks.galvanizing.drained": (
        "tests/parts/checks/galvanizing/test_drained.py",
    ),
    "platewheel.parts.loads.curving": _of(LOADS, "curving", "wheel_load"),
    "platewheel.parts.loads.travel": _of(LOADS, "wheel_load", "spectrum"),
    "platewheel.parts.loads.wheel_load": _of(LOADS, "wheel_load", "spectrum"),
    "platewheel.parts.loads.spectrum": _of(LOADS, "spectrum"),
    "platewheel.parts.rating.fatigue": (
        f"{RATING}fatigue.py",
        "tests/published/test_fatigue_curves.py",
    ),
    "platewheel.parts.stress.hertz": (f"{STRESS}hertz.py",),
    "platewheel.parts.stress.turn": (f"{STRESS}turn.py",),
    "platewheel.parts.wheel.flange": _of(WHEEL, "flange", "part_records"),
    "platewheel.parts.wheel.hub_disc": _of(WHEEL, "hub_disc", "part_records"),
    "platewheel.parts.wheel.tread_ring": _of(WHEEL, "tread_ring", "part_records"),
    "platewheel.parts.refit.pairing": (f"{REFIT}pairing.py",),
    "platewheel.parts.refit.shared_blanks": (f"{REFIT}shared_blanks.py",),
    "platewheel.parts.checks.strength.weld_strength": _WELDS,
    "platewheel.parts.checks.strength.weld_size": _WELDS,
    "platewheel.parts.checks.strength.flange_strength": _WELDS,
    "platewheel.parts.checks.strength.contact": _of(
        STRENGTH, "contact_limits", "contact_and_loads", "advice"
    ),
    "platewheel.parts.checks.strength.disc_load": _of(STRENGTH, "disc_limits", "contact_and_loads"),
    "platewheel.parts.checks.strength.disc_buckling": _DISCS,
    "platewheel.parts.checks.strength.hub_strength": _DISCS,
    "platewheel.parts.checks.strength.load_rating": _of(STRENGTH, "load_rating"),
    "platewheel.parts.checks.strength.corner_contact": _of(STRENGTH, "corner_contact"),
    "platewheel.parts.checks.running.own_factors": _of(RUNNING, "own_factors"),
    "platewheel.parts.checks.running.climb": _of(RUNNING, "flange_limits", "climb", "advice"),
    "platewheel.parts.checks.running.flange_window": _of(
        RUNNING, "flange_limits", "climb", "advice"
    ),
    "platewheel.parts.checks.running.play": _of(RUNNING, "flange_limits", "play", "advice"),
    "platewheel.parts.checks.running.rough_track": _of(
        RUNNING, "track_limits", "rough_track", "advice"
    ),
    "platewheel.parts.checks.running.crossings": _of(
        RUNNING, "track_limits", "crossings", "advice"
    ),
    "platewheel.parts.checks.running.speed": _of(RUNNING, "curve_limits", "speed", "advice"),
    "platewheel.parts.checks.running.curve": _CURVE,
    "platewheel.parts.checks.running.steering": _CURVE,
    "platewheel.parts.wagon.curving": _of(RUNNING, "curve_limits", "speed", "curve"),
    "platewheel.nesting.cutting.kerf": _of(CUTTING, "kerf_corners", "kerf"),
    "platewheel.nesting.cutting.lead": _of(CUTTING, "lead_shapes"),
    "platewheel.nesting.cutting.lead_place": _of(
        CUTTING, "lead_neighbours", "lead_shapes", "lead_room", "lead"
    ),
    "platewheel.nesting.cutting.cut_order": _of(CUTTING, "cut_order_rules", "cut_order"),
    "platewheel.nesting.verify.verify": _of(VERIFY, "verify_touching", "verify"),
    "platewheel.nesting.geometry.gaps": _of(GEOMETRY, "gaps_exact", "gaps"),
    "platewheel.nesting.geometry.overlap": (
        *_of(GEOMETRY, "overlap"),
        *_of(VERIFY, "verify_touching"),
    ),
    "platewheel.nesting.geometry.trim": _of(CUTTING, "kerf_corners", "kerf"),
}
