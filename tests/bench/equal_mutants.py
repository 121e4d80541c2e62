"""Mutants that live and are no fault: why each is the same in meaning as the line it changes.

Installed module -> changed line as the mutant has it -> the reason. Read by tests.bench.mutants.
"""

from __future__ import annotations

ONE = "the sign is 1 or -1: to divide by it is to multiply by it"
SIGN_ALONE = "only the sign is used, and the size is above 0"
EDGE = "the two differ only where a sum of floats meets the bound to the last digit"
BOOLS = "both are truth values: their product is their and"
HALVED = "after 80 halvings the span is less than the last digit"
MEAN = (
    "the mean lies between 1/2 and 1, and its last step squares the gap: the same step is the last"
)
UNREAD = "it is never read: without a push none is added, and the first case sets the patch"
LAST = "count steps reach over the whole sweep, so the last generator is never within it"
ODD = "the number is odd: every second of all but one are those of all but two"
NO_LESS = "the larger of it and a difference, which is never below 0"
SQUARE = "inwards is square to pull, so both terms have one sign whatever their sizes"

EQUAL: dict[str, dict[str, str]] = {
    "platewheel.parts.stress.throat": {
        "root = normal + 6 / self.turn_sign * about / self.size_mm**2": ONE,
        "root = normal + 6 // self.turn_sign * about / self.size_mm**2": ONE,
        "inwards = (notch - face) * size": SIGN_ALONE,
        "float(np.sign(inwards[0] % pull[1] - inwards[1] * pull[0])),": (
            "inwards[0] is pull[1] or its negative: nothing is over; the rest has the sign"
        ),
        "float(np.sign(inwards[0] / pull[1] - inwards[1] * pull[0])),": SQUARE,
        "float(np.sign(inwards[0] * pull[1] - inwards[1] / pull[0])),": SQUARE,
        "float(np.sign(inwards[0] // pull[1] - inwards[1] * pull[0])),": SQUARE,
        "float(np.sign(inwards[0] * pull[1] - inwards[1] // pull[0])),": SQUARE,
    },
    "platewheel.parts.rating.fatigue_limit": {
        "if gap.min() <= 1e-3:": EDGE,
        "if len(pairs) >= 2:": "there are two reading points at most",
    },
    "platewheel.parts.rating.rate": {
        "across, along = axes if crown >= wheel.tread_radius_mm else axes[::-1]": (
            "a crown as round as the wheel: both axes are one"
        ),
    },
    "platewheel.parts.rating.static_limit": {
        "field[contact_mask(response, case.place, turns) * in_tread[None]] = 0.0": BOOLS,
        'if part <= "hub-tube":': "of the parts left, ring and beads, all come after it",
        "beside = np.abs(points[:, 1] - middle) <= response.patch_width_mm / 2 + wall": EDGE,
        "return np.asarray(under[:, None] & (outer * beside)[None])": BOOLS,
        "return np.asarray(under[:, None] * (outer & beside)[None])": BOOLS,
        "return np.asarray(under[:, None] * near[None])": BOOLS,
        "under = turns * spec.tread_radius_mm <= 10.0 + spec.flange_thickness_mm": EDGE,
    },
    "platewheel.parts.rating.fatigue": {
        "if not 0 < class_n_mm2 != math.inf:": "above 0 and not infinite is finite",
    },
    "platewheel.parts.stress.hertz": {
        "for _ in range( 79):": HALVED,
        "for _ in range( 81):": HALVED,
        "while abs(a - b) > 1e-15 % a:": MEAN,
        "while abs(a - b) > 1e-15 / a:": MEAN,
    },
    "platewheel.parts.stress.turn": {
        "pushed = field((push, unit[-1])) if lateral_share else np.zeros( 0)": UNREAD,
        "pushed = field((push, unit[-1])) if lateral_share else np.zeros( 2)": UNREAD,
        "if case.place > place:": "places only rise",
    },
    "platewheel.parts.wheel.flange": {
        "if blank_sweep_deg(spec) > 360 - 1e-9:": EDGE,
        "if not 0 < sweep <= 360:": EDGE,
        "generators = [sweep / 2 + (i - count // 2) * step for i in range(count // 1)]": LAST,
        "generators = [sweep / 2 + (i - count // 2) * step for i in range(count * 1)]": LAST,
        "if 0.5 <= angle < sweep - 0.5:": EDGE,
    },
    "platewheel.parts.wheel.hub_disc": {
        'if side <= "field":': "the other side is gauge, which comes after it",
    },
    "platewheel.parts.wheel.tread_ring": {
        "length = (2 * math.pi - seam_angle(spec)) * mid_radii_mm(spec)[ -1]": (
            "a straight ring: both edges have one radius"
        ),
        "length = (2 * math.pi - seam_angle(spec)) * mid_radii_mm(spec)[ 1]": (
            "a straight ring: both edges have one radius"
        ),
    },
    "platewheel.parts.refit.pairing": {
        "below = [b - a for a, b in zip(rising[:- 2:2], rising[1::2], strict=True)]": ODD,
        "below = [b - a for a, b in zip(rising[:~1:2], rising[1::2], strict=True)]": ODD,
        "most_below = [ -1.0, *accumulate(below, max)]": NO_LESS,
        "most_above = [*reversed([*accumulate(reversed(above), max)]), -1.0]": NO_LESS,
    },
    "platewheel.parts.refit.shared_blanks": {
        "if blank_sweep_deg(spec) > 360 - 1e-9:": EDGE,
    },
}
