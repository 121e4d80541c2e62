"""Ellipses and splines as few true arcs, each pair of arcs tangent to the curve at both ends.

Two arcs that run smoothly into each other take the curve's place and direction at two of its
points (a biarc). Of all such pairs, the one whose joint is as far from either end along the two
tangents is taken. Source: Bolton, "Biarc curves", Computer-Aided Design 7(2), 1975, 89-92 (from
memory); the equations below are plain vector algebra.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from platewheel.nesting.drawings.closed_loops import FLAT_MM, Corner

CURVE_MM = 0.02  # how far an arc may lie off the curve
AIM_MM = 0.016  # at the places looked at, so that none between lies beyond the above
SAMPLE_MM = 0.002  # how far chords between the places looked at may lie off the curve
LOOKED_AT = 10  # places on each arc
MOST_PLACES = 20_000  # looked at on one curve
MOST_ARCS = 12_000  # of one curve, and of all in a drawing: a part may have a third of them
MOST_TURN = math.radians(150)  # of one pair of arcs


@dataclass(frozen=True)
class Traced:
    """A smooth stretch of a curve: places in order, each with its direction; numbers x + i y."""

    places: Any  # array of complex
    ways: Any  # unit vectors


class CurveError(ValueError):
    """A curve with more turns than can be followed."""


def traced(at: Callable[[Any], Any], slope: Callable[[Any], Any], params: Any) -> Traced:
    """A stretch sampled so finely that its chords lie within `SAMPLE_MM` of it.

    `at` and `slope` give places and derivatives for an array of parameters, complex numbers in
    mm; `params` are the first ones looked at. Raises: CurveError beyond `MOST_PLACES`.
    """
    import numpy as np

    most = len(params) + MOST_PLACES
    places, ways = at(params), slope(params)
    while True:
        along = np.diff(places)
        chord = np.abs(along)
        unit = _unit(ways, places)
        turn = np.abs(np.angle(unit[1:] * unit[:-1].conj()))
        # between two bends that undo each other the ends lean on the chord and have no turn; an
        # arc's ends lean half its turn
        lean = np.maximum(*(np.abs(np.angle(one * along.conj())) for one in (unit[1:], unit[:-1])))
        bent = np.maximum(turn, 2 * lean)
        # a chord's arc rises chord x tan(turn / 4) / 2; a turn of 0.2 may hide a longer way round
        coarse = chord * np.tan(np.minimum(bent, 3.0) / 4) / 2 > SAMPLE_MM
        coarse |= (turn > 0.2) & (chord > SAMPLE_MM)
        coarse &= np.diff(params) > 1e-12 * (params[-1] - params[0])
        if not coarse.any():
            return Traced(places, unit)
        if len(params) + coarse.sum() > most:
            raise CurveError(f"that turns more than {MOST_PLACES} times")
        middle = (params[:-1] + params[1:])[coarse] / 2
        order = np.argsort(np.concatenate([params, middle]), kind="stable")
        params = np.concatenate([params, middle])[order]
        places = np.concatenate([places, at(middle)])[order]
        ways = np.concatenate([ways, slope(middle)])[order]


def _unit(ways: Any, places: Any) -> Any:
    """Directions; along the nearest chord where the curve stands still."""
    import numpy as np

    length = np.abs(ways)
    chords = np.diff(places)
    chords = np.append(chords, chords[-1])
    ways = np.where(length > 1e-9 * max(length.max(), 1e-30), ways, chords)
    length = np.abs(ways)
    return np.where(length > 0, ways / np.where(length > 0, length, 1.0), 1.0)


def require_few_arcs(count: int) -> None:
    """Raises: CurveError for more than any part can have, which would be looked for in vain."""
    if count > MOST_ARCS:
        raise CurveError(f"that takes more than {MOST_ARCS} lines and arcs to follow")


def arcs_of(curve: Traced) -> list[Corner]:
    """The stretch by as few pairs of arcs as reach along it one after another; its end is the
    last corner. Raises: CurveError beyond `MOST_ARCS`."""
    corners: list[Corner] = []
    here, last = 0, len(curve.places) - 1
    while here < last:
        good, step = here + 1, 2
        fit = _fitted(curve, here, good) or _chord(curve, here, good)
        while good < last:  # gallop, then halve
            trial = min(last, here + step)
            found = _fitted(curve, here, trial)
            if found is None:
                break
            good, fit, step = trial, found, 2 * step
        bad = min(last + 1, here + step)
        while bad - good > 1:
            trial = (good + bad) // 2
            found = _fitted(curve, here, trial)
            if found is None:
                bad = trial
            else:
                good, fit = trial, found
        corners += fit
        require_few_arcs(len(corners))
        here = good
    end = curve.places[-1]
    return [*corners, (float(end.real), float(end.imag), 0.0)]


def _chord(curve: Traced, a: int, b: int) -> list[Corner]:
    start = curve.places[a]
    return [(float(start.real), float(start.imag), 0.0)]


def _fitted(curve: Traced, a: int, b: int) -> list[Corner] | None:
    """Line or pair of arcs from place a to place b; None where it leaves the curve."""
    import numpy as np

    start, end = complex(curve.places[a]), complex(curve.places[b])
    way, out = complex(curve.ways[a]), complex(curve.ways[b])
    inner = curve.places[a + 1 : b]
    turns = np.angle(curve.ways[a + 1 : b + 1] * curve.ways[a:b].conj())
    if abs(end - start) < 1e-9 or np.abs(turns).sum() > MOST_TURN:
        return None
    joint = _joint(start, end, way, out)
    if joint is None:
        return None
    first, second = _bulge(start, joint, way), -_bulge(end, joint, -out)
    off = _off(inner, start, joint, first, second, end)
    if off > AIM_MM or _beside(curve.places[a : b + 1], start, joint, first, second, end) > AIM_MM:
        return None
    chord = abs(end - start)
    if max(abs(first) * abs(joint - start), abs(second) * abs(end - joint)) / 2 < FLAT_MM:
        return [(start.real, start.imag, 0.0)]
    if _same_circle(start, joint, end, first, second) and chord > 0:
        bulge = math.tan(math.atan(first) + math.atan(second))
        return [(start.real, start.imag, bulge)]
    return [(start.real, start.imag, first), (joint.real, joint.imag, second)]


def _joint(start: complex, end: complex, way: complex, out: complex) -> complex | None:
    """Where the two arcs meet: half way between start + d way and end - d out, which lie 2 d
    apart. With v = end - start: v.v - 2 d v.(way + out) + 2 d^2 (way.out - 1) = 0.

    Source: |v - d (way + out)| = 2 d written out.
    """
    v = end - start
    both = way + out
    along = (v * both.conjugate()).real
    bend = 2 * (1 - (way * out.conjugate()).real)
    if bend < 1e-12:  # parallel ends
        if along <= 1e-12:
            return None
        d = abs(v) ** 2 / (2 * along)
    else:
        d = (-along + math.sqrt(along * along + bend * abs(v) ** 2)) / bend
    return ((start + d * way) + (end - d * out)) / 2 if d > 0 else None


def _bulge(start: complex, end: complex, way: complex) -> float:
    """tan(sweep / 4) of the arc that leaves in a direction: the chord lies half the sweep off."""
    chord = end - start
    if abs(chord) < 1e-12:
        return 0.0
    return math.tan(math.atan2((way.conjugate() * chord).imag, (way.conjugate() * chord).real) / 2)


def _off(
    places: Any, start: complex, joint: complex, first: float, second: float, end: complex
) -> float:
    """Greatest distance of places from the nearer of two arcs, mm."""
    import numpy as np

    if not len(places):
        return 0.0
    off = np.minimum(_from_arc(places, start, joint, first), _from_arc(places, joint, end, second))
    return float(off.max())


def _beside(
    places: Any, start: complex, joint: complex, first: float, second: float, end: complex
) -> float:
    """Greatest distance of two arcs, at some places of each, from the chords between places, mm."""
    import numpy as np

    looked = np.concatenate([_along(start, joint, first), _along(joint, end, second)])
    chords = np.diff(places)
    long = np.maximum(np.abs(chords), 1e-12)
    unit = chords / long
    off = (looked[:, None] - places[None, :-1]) * unit.conj()
    over = off.real - np.clip(off.real, 0, long)
    return float(np.hypot(over, off.imag).min(axis=1).max())


def _along(start: complex, end: complex, bulge: float) -> Any:
    """Places on an arc, its ends left out: a share u of the chord goes to
    u (1 - i b) / (u (1 - i b) + (1 - u) (1 + i b)) of it, a circle by the bulge b (at u = 1/2:
    half the chord less i b / 2)."""
    import numpy as np

    u = np.arange(1, LOOKED_AT) / LOOKED_AT
    turn = 1j * bulge
    return start + (end - start) * u * (1 - turn) / (u * (1 - turn) + (1 - u) * (1 + turn))


def _from_arc(places: Any, start: complex, end: complex, bulge: float) -> Any:
    """Distances from an arc: to its circle where the place lies in its sector, else to an end."""
    import numpy as np

    ends = np.minimum(np.abs(places - start), np.abs(places - end))
    chord = end - start
    if abs(chord) < 1e-12:
        return ends
    seen = (places - start) / chord  # along the chord, from 0 to 1
    if abs(bulge) * abs(chord) / 2 < FLAT_MM:
        inside = (seen.real >= 0) & (seen.real <= 1)
        return np.where(inside, np.abs(seen.imag) * abs(chord), ends)
    centre = 0.5 + 1j * (1 - bulge * bulge) / (4 * bulge)
    radius = (1 + bulge * bulge) / (4 * abs(bulge))
    spoke = seen - centre
    sweep = 4 * math.atan(bulge)
    middle = (0.5 - 1j * bulge / 2) - centre  # towards the middle of the arc
    inside = np.abs(np.angle(spoke / middle)) <= abs(sweep) / 2
    return np.where(inside, np.abs(np.abs(spoke) - radius) * abs(chord), ends)


def _same_circle(start: complex, joint: complex, end: complex, first: float, second: float) -> bool:
    """Whether both arcs are one: by their radii, as they run smoothly into each other."""
    if first * second <= 0:
        return False
    radii = [
        abs(chord) * (1 + bulge * bulge) / (4 * abs(bulge))
        for chord, bulge in ((joint - start, first), (end - joint, second))
    ]
    return abs(radii[0] - radii[1]) < 1e-6 * min(radii) and abs(first) + abs(second) < 1
