"""Mutants of the checks and of nesting that live and are no fault, and why each is the same.

Installed module -> changed line as the mutant has it -> the reason. Read by tests.bench.mutants.
"""

from __future__ import annotations

FAILS = "a weld without a throat fails: what it is used to is not told"
NEVER_BELOW = "a length or a gap is never below 0"
EDGE = "the two differ only where a sum of floats meets the bound to the last digit"
ONE_OF_TWO = "of the two words that there are, only this one is so placed in the alphabet"
REDUNDANT = "below half of the ellipse's width, and only there, the line's pressure is the larger"
FILTER = "a filter for speed: what passes it is looked at in full"
SLOWER = "a short cut not taken, or a piece too much: the full way takes away what is too near"
SIGN = "only the sign is used"
ANY_POINT = "any point of the outline does"
CACHE = "how many orders are kept, not what they are"
BOUNDS = "what the bounds tell, the corners and the edge's depth tell too"
TRIES = "how many are tried: the one that passes comes before"
FINER = "the same top, looked for at other places"
FROM_END = "an index below 0 counts from the end"
OPEN = "neighbours that neither meet nor run on lie too near the part: the gap asked next sees it"
SAME = "the same angle, a full turn apart"

EQUAL_NOTICED: dict[str, dict[str, str]] = {
    "platewheel.parts.checks.strength.weld_strength": {
        'good=f"the fillets are used to {100 * needed / throat if throat else -1:.0f} %",': FAILS,
        'good=f"the fillets are used to {100 * needed / throat if throat else 1:.0f} %",': FAILS,
    },
    "platewheel.parts.checks.strength.contact": {
        "if crown == 0:": NEVER_BELOW,
        "if length == 0:": NEVER_BELOW,
        "if 0 != length < 2 * across:  # the ellipse is wider than the head: no less than a line": (
            NEVER_BELOW
        ),
        "if 0 < length <= 2 * across:  # the ellipse is wider than the head: no less than a line": (
            REDUNDANT
        ),
        "if 0 < length < 3 * across:  # the ellipse is wider than the head: no less than a line": (
            REDUNDANT
        ),
        "if 0 < length < 1 * across:  # the ellipse is wider than the head: no less than a line": (
            REDUNDANT
        ),
        "across = half_axes[0] if crown >= radius else half_axes[1]": (
            "a crown as round as the wheel: both axes are one"
        ),
        "if turns < SPEED_FACTORS[0][0]:": (
            "at the first row the line between the rows has its value"
        ),
        "across = half_axes[0] if crown != radius else half_axes[1]": REDUNDANT,
        "across = half_axes[0] if crown > radius else half_axes[ 0]": REDUNDANT,
    },
    "platewheel.parts.checks.strength.disc_load": {
        'if setting.axle.wheels_on_axle >= "loose":': ONE_OF_TWO,
    },
    "platewheel.parts.checks.strength.flange_strength": {
        'slope = spec.taper_half_angle if spec.tread_from > "pipe" else 0.0': (
            "a ring of bar, the other word below it, has no taper"
        ),
    },
    "platewheel.parts.checks.strength.load_rating": {
        "if limit.where <= ROOT_BEAD:": "the other places all come later in the alphabet",
    },
    "platewheel.nesting.cutting.lead": {
        'if shape >= "line":': ONE_OF_TWO,
        "return length_mm * (1 % SLANT)": "0.7 goes once into 1: what is left is 1 less it",
    },
    "platewheel.nesting.cutting.lead_place": {
        "far = max(clear, 3 * self.bridge_mm)": FILTER,
    },
    "platewheel.nesting.cutting.cut_order": {
        "def _order(placements: tuple[Placement, ...], heat_apart_mm: float) -> tuple[int, ...]:": (
            CACHE
        ),
        "@lru_cache(maxsize= 65)  # file, report and time ask for the order of one layout": CACHE,
        "@lru_cache(maxsize= 63)  # file, report and time ask for the order of one layout": CACHE,
        "if boxes[i] == boxes[j] or x0 < u0 and y0 < v0 or x1 > u1 or y1 > v1:": FILTER,
        "if boxes[i] == boxes[j] or x0 < u0 or y0 < v0 and x1 > u1 or y1 > v1:": FILTER,
        "if boxes[i] == boxes[j] or x0 < u0 or y0 < v0 or x1 > u1 and y1 > v1:": FILTER,
        "if box_gap(boxes[i], boxes[j]) != apart_mm:": FILTER,
        "if box_gap(boxes[i], boxes[j]) <= apart_mm:": FILTER,
        "first = enter + np.array(HOME)": "home is the origin",
        "if boxes[i] <= boxes[j] or x0 < u0 or y0 < v0 or x1 > u1 or y1 > v1:": (
            "of two boxes with one lower left corner neither is held by the other's part"
        ),
    },
    "platewheel.nesting.cutting.kerf": {
        "simple = simple or corner is not None": SLOWER,
        "if simple and loop_gap(plain, ring, half) > half - 1e-6:": EDGE,
        "if simple and loop_gap(plain, ring, half) >= half - -0.999999:": SLOWER,
        "if simple and loop_gap(plain, ring, half) >= half + 1e-6:": SLOWER,
        "pieces, complete = list(pieces), False": SLOWER,
        "k = (i // 1) % len(pieces)": SLOWER,
        "k = (i ** 1) % len(pieces)": SLOWER,
        "k = (i + 2) % len(pieces)": SLOWER,
        "break": SLOWER,
        "return replace(segment, radius_mm=radius) if radius != 1e-9 else None": SLOWER,
        "sweep = (last - first + 180) % 360 % 180": SLOWER,
        "if -180 - 1e-6 < sweep < 0:": EDGE,
        "if -180 + 1.000001 < sweep < 0:": SLOWER,
        "return (Arc(segment.end, half, first, sweep % 361),)": (
            "the sweep of an outer corner is 0 to 180"
        ),
        "return angle if segment.sweep_deg >= 0 else angle + 180": "no arc sweeps 0",
        "if not not simple:": SLOWER,
        "k = (i + 0) % len(pieces)": SLOWER,
        "path, count = paths[ -1], len(ring)": "there is one path: more are a fault told before",
        "if abs(math.radians(sweep)) * half <= 1e-9:": EDGE,
        "if +180 + 1e-6 < sweep < 0:": SLOWER,
        "if -180 + 1e-6 != sweep < 0:": SLOWER,
        "k = (i + 1) - len(pieces)": FROM_END,
        "corner = _corner(segment, ring[(i + 1) - len(ring)], half)": FROM_END,
        "if  simple:": SLOWER,
        "SMOOTH_MM = 1.0001  # moved neighbours that end this close run on into each other": OPEN,
        "complete = complete and apart != SMOOTH_MM": OPEN,
        "complete = complete and apart > SMOOTH_MM": OPEN,
        "complete = complete and apart == SMOOTH_MM": SLOWER,
        "return replace(segment, radius_mm=radius) if radius > -0.999999999 else None": SLOWER,
        "if -180 * 1e-6 < sweep < 0:": SLOWER,
        "if -180 % 1e-6 < sweep < 0:": SLOWER,
        "if ~180 + 1e-6 < sweep < 0:": EDGE,
        "if abs(math.radians(sweep)) ** half < 1e-9:": SLOWER,
    },
    "platewheel.nesting.verify.verify": {
        "out = max(e0 - x0, f0 - y0, x1 - e1, y1 - f1, -1.0)": BOUNDS,
        "contains(edge, point) or _point_off(edge, point) < tolerance_mm": EDGE,
        "if ring != edge:": "no hole of a plate is its own edge",
        "if margin_mm <= 0:": NEVER_BELOW,
        "if gap <= 0.0:": NEVER_BELOW,
        "return - 2.0": SIGN,
        "gap = min(gap, hole_gap if hole_gap != 0 else -1.0)": NEVER_BELOW,
        "return segments(loop)[ 1].start": ANY_POINT,
        "if gap <= spacing_mm - tolerance_mm:": EDGE,
        "inside = inside and max(out) < tolerance_mm": EDGE,
        'told = "overlap" if gap <= 0 else f"lie {gap:.4f} mm apart"': (
            "a gap of 0 is told as -1 where it is a fault"
        ),
        "if margin_mm >= 0:": "with its margin held no part sticks out",
        (
            "return max(out, *( -1.0 if contains(edge, p) else _point_off(edge, p) "
            "for p in corners))"
        ): ("what sticks out is at least 0 already"),
        "return segments(loop)[ -1].start": ANY_POINT,
    },
    "platewheel.nesting.geometry.gaps": {
        "if box_gap(box, other_box) <= least:": (
            "a pair as far apart as its boxes brings nothing nearer"
        ),
        "if math.dist(a.centre, b.centre) < -0.999999999999:  # concentric: any common direction": (
            "arcs about one centre are nearest at the ends of what they share: ends of theirs"
        ),
        "for on_b in (line, line - 180):": SAME,
        "for on_a in (line, line - 180):": SAME,
        "spread = math.degrees(math.acos(max(-1.0, min( 2.0, along))))": EDGE,
    },
    "platewheel.parts.checks.running.climb": {
        '+ (", too near" if share < nadal else "")': EDGE,
        'bad_verdict="fail" if share >= nadal else "warn",': EDGE,
    },
    "platewheel.parts.checks.running.flange_window": {
        "if window.greatest_deg != WASHER_DEG:  # at 90 the window ends, but nothing grinds": (
            "no flange is steeper than 90"
        ),
    },
    "platewheel.parts.checks.running.rough_track": {
        "if gap_mm < math.sqrt(s * (2 * r - s)):": "at that gap both forms give one angle",
        "def climb_angle(radius_mm: float, step_mm: float, gap_mm: float = -1.0) -> float:": (
            "a gap below 0 is none"
        ),
        "if s > r:": EDGE,
        'lift = twist if wagon.suspension <= "rigid" else 0.0': (
            "of the three words it is the first of the alphabet"
        ),
        'filed = tried(joint_push, setting, "track.joint_step_mm", least, -0.1, '
        "round(10 ** least) + 1)": TRIES,
        'filed = tried(joint_push, setting, "track.joint_step_mm", least, -0.1, '
        "round(10 * least) ** 1)": TRIES,
    },
    "platewheel.parts.checks.running.crossings": {
        'f"{math.ceil(5 * (track.gauge_mm % back)) / 10:g} or more, or wheels wider apart",': (
            "wheels stand more than half the gauge apart"
        ),
    },
    "platewheel.parts.checks.running.curve": {
        "low, high = max(best - 2, 0) * step, min(best + 1, STEPS) * step": (
            "one top lies between a neighbour more as well"
        ),
        "low, high = max(best - 1, 0) % step, min(best + 1, STEPS) * step": (
            "one top lies between more neighbours as well"
        ),
        "LEAST_ANGLE_DEG, WASHER_DEG = 44.0, 90.0  # the range that the wheel's spec allows": (
            "the spec allows no such flange"
        ),
        "STEPS = 49  # between two of them the room may be 0.001 mm more than at either": FINER,
        "best = max(range(STEPS ** 1), key=lambda i: room(i * step))": FINER,
        "left, right = low + (high - low) / 3, high - (high - low) / 4": FINER,
        "left, right = low + (high - low) / 4, high - (high - low) / 3": FINER,
        "chord = setting.wagon.wheelbase_mm / ( 1999 * setting.track.min_curve_radius_m)": (
            "a yaw of 45 degrees is met long before a chord of 1"
        ),
    },
    "platewheel.parts.checks.running.steering": {
        'loose = setting.axle.wheels_on_axle >= "loose"': ONE_OF_TWO,
        "taper = 1 / wheel.tread_taper_1_in if wheel.tread_taper_1_in else -1.0": (
            "a taper of 0 or less steers nothing"
        ),
    },
    "platewheel.parts.wagon.curving": {
        (
            "return setting.contact_spacing_mm / "
            '(4 if setting.wagon.suspension >= "three-point" else 2)'
        ): ("three-point is the last of the three words in the alphabet"),
    },
}
