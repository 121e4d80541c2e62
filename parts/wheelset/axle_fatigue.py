"""Fatigue strength of a round axle by Marin's factors, and Goodman's line.

Source throughout: Shigley, Mechanical Engineering Design, chapters 6 and 7, from memory.
A weld across the axle is not covered: it is a case for `parts.rating.fatigue`, the
S-N curves of welds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

SURFACE = {  # a, b of ka = a Rm^b, Rm in N/mm2
    "ground": (1.58, -0.085),
    "machined": (4.51, -0.265),
    "hot-rolled": (57.7, -0.718),
}
RELIABILITY = {50: 1.0, 90: 0.897, 95: 0.868, 99: 0.814}  # percent
KEY_KT, KEY_KTS = 2.14, 3.0  # end-milled keyseat in bending and torsion, r / d = 0.02
# D / d up to, then A and b of Kt = A (r / d)^b, shoulder in bending; fits of Peterson's chart
SHOULDER = (
    (1.05, 0.98137, -0.19653),
    (1.10, 0.95120, -0.23757),
    (1.20, 0.97098, -0.21796),
    (1.50, 0.93836, -0.25759),
    (2.00, 0.90879, -0.28598),
    (3.00, 0.89334, -0.30860),
    (math.inf, 0.87868, -0.33243),  # charted for 6; flat beyond
)
SHOULDER_TORSION = (  # the same in torsion; charted up to 2, flat beyond
    (1.09, 0.90337, -0.12692),
    (1.20, 0.83425, -0.21649),
    (1.33, 0.84897, -0.23161),
    (math.inf, 0.86331, -0.23865),
)


def surface_factor(rm_n_mm2: float, finish: str) -> float:
    """ka = a Rm^b, at most 1. Raises: ValueError for an unknown finish."""
    if finish not in SURFACE:
        raise ValueError(f"finish: found {finish}; allowed: {', '.join(SURFACE)}")
    a, b = SURFACE[finish]
    return float(min(a * rm_n_mm2**b, 1.0))


def size_factor(diameter_mm: float, turning: bool = True) -> float:
    """kb: 1.24 d^-0.107 to 51 mm, 1.51 d^-0.157 to 254; of 0.37 d where the axle does not turn.

    Raises: ValueError outside 2.79 to 254 mm.
    """
    d = diameter_mm if turning else 0.37 * diameter_mm
    if not 2.79 <= d <= 254:
        raise ValueError(f"diameter_mm: found {d:g} effective; allowed: from 2.79 up to 254 mm")
    return float(1.24 * d**-0.107 if d <= 51 else 1.51 * d**-0.157)


def shoulder_kt(big_mm: float, small_mm: float, fillet_mm: float) -> float:
    """Theoretical notch factor of a shoulder in bending: the largest charted up to the next D / d,
    as the fits cross (safe).

    Raises: ValueError for D below d, or a fillet not above 0.
    """
    return _charted(SHOULDER, big_mm, small_mm, fillet_mm)


def shoulder_kts(big_mm: float, small_mm: float, fillet_mm: float) -> float:
    """The same in torsion. Raises: ValueError as above."""
    return _charted(SHOULDER_TORSION, big_mm, small_mm, fillet_mm)


def _charted(
    chart: tuple[tuple[float, float, float], ...], big_mm: float, small_mm: float, fillet_mm: float
) -> float:
    if not (0 < small_mm <= big_mm and fillet_mm > 0):
        raise ValueError(
            f"shoulder: found {big_mm:g} on {small_mm:g}, fillet {fillet_mm:g}; allowed: "
            "D from d up, fillet above 0 mm"
        )
    next_row = next(i for i, (most, _, _) in enumerate(chart) if big_mm / small_mm <= most)
    found = [a * (fillet_mm / small_mm) ** b for _, a, b in chart[: next_row + 1]]
    return float(max(*found, 1.0))


def notch_factor(kt: float, fillet_mm: float, rm_n_mm2: float, torsion: bool = False) -> float:
    """Kf = 1 + q (Kt - 1), q = 1 / (1 + sqrt(a / r)) by Neuber, steel in bending or torsion."""
    s = rm_n_mm2 / 6.894757  # kpsi, in which the polynomials are published; square root of inches
    if torsion:
        root_a = 0.190 - 2.51e-3 * s + 1.35e-5 * s**2 - 2.67e-8 * s**3
    else:
        root_a = 0.246 - 3.08e-3 * s + 1.51e-5 * s**2 - 2.67e-8 * s**3
    return 1 + (kt - 1) / (1 + root_a / math.sqrt(fillet_mm / 25.4))


def endurance_n_mm2(
    rm_n_mm2: float,
    diameter_mm: float,
    finish: str = "machined",
    turning: bool = True,
    reliability_percent: int = 99,
) -> float:
    """Se = ka kb ke 0.5 Rm, N/mm2, amplitude of full reversal (Rm up to 1400).

    Raises: ValueError for a finish, size or reliability that is not listed, or Rm above 1400.
    """
    if not 0 < rm_n_mm2 <= 1400:
        raise ValueError(f"rm_n_mm2: found {rm_n_mm2:g}; allowed: above 0 up to 1400 N/mm2")
    if reliability_percent not in RELIABILITY:
        raise ValueError(f"reliability_percent: found {reliability_percent}; allowed: 50, 90 ...")
    factors = surface_factor(rm_n_mm2, finish) * size_factor(diameter_mm, turning)
    return factors * RELIABILITY[reliability_percent] * 0.5 * rm_n_mm2


@dataclass(frozen=True)
class Stresses:
    """What an axle feels at one place in each turn or each crossing, N/mm2, without notches."""

    bending_amplitude: float
    bending_mean: float = 0.0
    torsion_mean: float = 0.0


def fatigue_safety(
    stresses: Stresses, kf: float, kfs: float, rm_n_mm2: float, endurance: float
) -> float:
    """Safety by Goodman's line on von Mises' stresses: 1 / n = sa' / Se + sm' / Rm with
    sa' = Kf sa and sm'^2 = (Kf sm)^2 + 3 (Kfs tm)^2; infinite without stress. Source: Shigley,
    Mechanical Engineering Design, 7-4 (DE-Goodman)."""
    mean = math.hypot(kf * stresses.bending_mean, math.sqrt(3) * kfs * stresses.torsion_mean)
    used = kf * stresses.bending_amplitude / endurance + mean / rm_n_mm2
    return 1 / used if used > 0 else math.inf


LIMIT_CYCLES, FEW_CYCLES, FEW_SHARE = 1e6, 1e3, 0.9  # Shigley, 6-8, from memory
HALVINGS = 34  # of a thousandfold: to 1e-9


def slope(rm_n_mm2: float, endurance: float) -> float:
    """Exponent of the S-N line from 0.9 Rm at 1e3 cycles to the endurance limit at 1e6.

    Source: Shigley, Mechanical Engineering Design, 6-8, from memory.
    """
    decades = math.log10(LIMIT_CYCLES / FEW_CYCLES)
    return decades / math.log10(FEW_SHARE * rm_n_mm2 / endurance)


def life_safety(uses: Sequence[tuple[float, float]], exponent: float) -> float:
    """Factor on all loads at which Miner's sum is 1; infinite without stress.

    Of every kind of cycle goes in its 1 / n by Goodman, and how many there are. Below the
    endurance limit the exponent is 2 k - 1, so that small loads count beside large ones; where
    no load is above it nothing counts, and the factor is at least 1 over the greatest.
    Source: Haibach 1970, Miner's rule modified, from memory.
    """
    greatest = max((used for used, _ in uses), default=0.0)
    if greatest <= 0:
        return math.inf

    def done(factor: float) -> float:
        total = 0.0
        for used, cycles in uses:
            load = factor * used
            power = exponent if load > 1 else 2 * exponent - 1
            total += cycles / LIMIT_CYCLES * load**power
        return total

    low, high = 1 / greatest, 1000 / greatest  # at `low` the greatest is at the limit: endless
    if done(low) >= 1:
        return low
    for _ in range(HALVINGS):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if done(middle) < 1 else (low, middle)
    return low
