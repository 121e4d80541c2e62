"""Which check's warning keeps strong wheels out: asked on a coarser grid of wheels.

Where every wheel that no check warns of is too weak, a builder takes one that is warned of and
looks at the warning. Which warning to let in is settled by counted work: a sift of a coarser grid
for each check that held wheels back, and a few analyses of the thickest wheels of those that open
most.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.line_changes import fewer
from platewheel.parts.propose.screening import Check, Sieve, Wheels
from platewheel.parts.propose.sifting import sifted
from platewheel.parts.setting.setting import Setting

ANGLES, DIAMETERS = 12, 6  # of the coarser grid; all else but the rings is as fine as in full
THICK = (
    *("tread_thickness_mm", "flange_thickness_mm", "disc_thickness_mm"),
    *("weld_throat_mm", "root_weld_mm"),
)


def warning_checks(sieves: Sequence[Sieve]) -> list[str]:
    """Names of the checks that held some wheels back for a warning alone, those of most first."""
    most: dict[str, int] = {}
    for sieve in sieves:
        if sieve.warned:
            most[sieve.check] = max(most.get(sieve.check, 0), sieve.warned)
    return sorted(most, key=lambda name: (-most[name], name))


def coarser(choices: Choices) -> Choices:
    """Some of the wheels, spread over the same ranges: fine enough for narrow windows."""
    return fewer(choices, {"angle": ANGLES}, DIAMETERS)


def opened(
    setting: Setting, choices: Choices, checks: tuple[Check, ...], allowed: Collection[str]
) -> tuple[int, list[Setting]]:
    """How many wheels pass when these checks may warn, and the settings of two that may be the
    strongest: the thickest of all, and the thickest of the largest diameter."""
    wheels = sifted(setting, choices, checks, allowed=allowed).wheels
    if not wheels.count:
        return 0, []
    rows = sorted(range(wheels.count), key=lambda row: -thickness(wheels, row))
    large = max(rows, key=lambda row: wheels.values(row)["tread_diameter_mm"])
    return wheels.count, [wheels.setting(setting, row) for row in dict.fromkeys((rows[0], large))]


def thickness(wheels: Wheels, row: int) -> float:
    """How thick plates and beads are taken together: the strongest is looked for there."""
    values = wheels.values(row)
    product = 1.0
    for key in THICK:
        product *= values[key]
    return product
