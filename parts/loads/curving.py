"""Steady curving of a rigid frame: where it turns, what slides, how hard its flanges are pushed.

Every wheel slides with full friction; axles roll about their own middle. The frame turns about
the friction centre, at a distance q behind the leading axle on its long axis. Source: Porter, The
mechanics of a locomotive on curved track (1935), and Heumann, Grundzuege der Fuehrung der
Schienenfahrzeuge (1954), both from memory; the equations follow from plain statics.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from functools import cache


@dataclass(frozen=True)
class Curving:
    """Forces over friction x wheel load. `push` is on the leading outer flange, `inner_push` on
    the trailing inner one (0 where it does not touch); `across` is the part of a leading wheel's
    friction that lies across the track; `net` = push - across is what the leading outer wheel
    hands to its axle. `attack` is the yaw of the leading axle, radians."""

    friction_centre_mm: float
    attack: float
    push: float
    inner_push: float
    across: float

    @property
    def net(self) -> float:
        """What the leading outer wheel hands to its axle."""
        return self.push - self.across


@cache
def curving(
    wheelbase_mm: float,
    axles: int,
    spacing_mm: float,
    travel_mm: float,
    curve_radius_mm: float,
    *,
    loose: bool,
) -> Curving:
    """Forces of a wagon with evenly spaced axles in a curve.

    With room the trailing inner flange stays free and the frame takes the place in which the
    leading flange is pushed least (Heumann); else it lies across the track, both flanges
    touching, q = L / 2 + R s / L. Loose wheels slide across the track alone.
    """
    if axles < 2:  # nothing guides it but its own flanges: it may slide across at any yaw
        return Curving(0.0, 0.0, 2.0, 0.0, 1.0)
    places = tuple(wheelbase_mm * i / (axles - 1) for i in range(axles))
    half = 0.0 if loose else spacing_mm / 2
    skewed = wheelbase_mm / 2 + curve_radius_mm * max(travel_mm, 0.0) / wheelbase_mm
    free = _least_pushed_mm(places, half)
    centre = min(skewed, free)
    arms = [_arm(centre, place, half) for place in places]
    moment = 2 * sum(math.hypot(half, centre - place) for place in places)
    if free <= skewed:
        push, inner = moment / centre, 0.0
    else:  # lateral forces and moments about the friction centre
        difference = 2 * sum(arms)
        push = (moment + difference * (wheelbase_mm - centre)) / wheelbase_mm
        inner = max(push - difference, 0.0)  # where it just touches nothing presses it
    return Curving(centre, centre / curve_radius_mm, push, inner, arms[0])


def _arm(centre_mm: float, place_mm: float, half_mm: float) -> float:
    """Share of a wheel's friction that lies across the track, positive outwards."""
    along = centre_mm - place_mm
    radius = math.hypot(half_mm, along)
    return along / radius if radius else 0.0


@cache
def _least_pushed_mm(places: tuple[float, ...], half_mm: float) -> float:
    """Distance at which the leading flange is pushed least, trailing flange free: the sum of
    2 (b2 + (q - x)2)^1/2 over q falls until it, then rises; to a thousandth of a millimetre."""

    def rises(thousandths: int) -> bool:
        centre = thousandths / 1000
        away = [(place, math.hypot(half_mm, centre - place)) for place in places]
        return sum((x * (centre - x) - half_mm**2) / long for x, long in away if long) >= 0

    low, last = places[-1] / 2, places[-1]
    high = last + len(places) * half_mm**2 / last + 1  # there the last axle's part beats all others
    tried = range(round(1000 * low), round(1000 * high))
    return tried[bisect_left(tried, True, key=rises)] / 1000
