"""From all wheels that a shop could make to those that pass every closed-form check."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from platewheel.parts.checks.run import CHECKS
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.screening import Check, Sieve, Wheels, first_wheels, sift, widened
from platewheel.parts.setting.setting import Setting

if TYPE_CHECKING:
    from numpy.typing import NDArray


@dataclass(frozen=True)
class Sifted:
    """Wheels left over, what each check did in the order asked, how many different wheels were
    judged, and the checks that hang on too much to be asked of all: the finalists answer them."""

    wheels: Wheels
    sieves: tuple[Sieve, ...]
    judged: int
    late: tuple[Check, ...]


def sifted(
    setting: Setting,
    choices: Choices,
    checks: tuple[Check, ...] = CHECKS,
    allowed: Collection[str] = (),
) -> Sifted:
    """Choose one dimension after the other and drop what fails as soon as it is known to.

    Three dimensions cost next to nothing and are settled here: of the flange angles that pass,
    the one in the middle, as far from climbing as from grinding; of fit clearances and vents,
    the least that pass. Warnings of the checks `allowed` count as passed.
    """
    left, told, most = list(checks), list[Sieve](), 0
    wheels = first_wheels(setting.wheel, choices)
    for axes, settle in (
        (("flange", "depth"), None),
        (("angle",), "angle"),
        (("disc", "inset", "fit"), "fit"),
        (("throat", "root"), None),
        (("vents",), "vents"),
        (("segments",), None),
    ):
        for axis in axes:
            wheels = widened(wheels, axis)
        most = max(most, wheels.count)
        # nothing may be settled before all that it decides has been asked
        wheels, seen, left = sift(wheels, setting, left, settle, allowed)
        told += seen
        if settle == "angle":
            wheels = middle_of(wheels, settle)
        elif settle:
            wheels = first_of(wheels, settle)
        if not wheels.count:
            break
    return Sifted(wheels, tuple(told), most, tuple(left))


def sifted_at_last(
    setting: Setting, choices: Choices, checks: tuple[Check, ...] = CHECKS
) -> Sifted:
    """As `sifted`; where that leaves none and a check held some back for a warning alone, the
    first such check, from the last asked to the first, whose warnings allowed leave some."""
    found = sifted(setting, choices, checks)
    if found.wheels.count:
        return found
    for name in reversed([sieve.check for sieve in found.sieves if sieve.warned]):
        again = sifted(setting, choices, checks, allowed={name})
        if again.wheels.count:
            return again
    return found


def first_of(wheels: Wheels, axis: str) -> Wheels:
    """Of wheels that differ on this axis alone, the first."""
    import numpy as np

    if not wheels.count:
        return wheels
    code = _others(wheels, axis)
    order = np.lexsort((wheels.places[axis], code))
    starts = np.flatnonzero(np.diff(code[order], prepend=-1))
    return wheels.kept(np.sort(order[starts]))


def middle_of(wheels: Wheels, axis: str) -> Wheels:
    """Of wheels that differ on this axis alone, the one in the middle of those left; of two
    in the middle the first."""
    import numpy as np

    if not wheels.count:
        return wheels
    code = _others(wheels, axis)
    order = np.lexsort((wheels.places[axis], code))
    starts = np.flatnonzero(np.diff(code[order], prepend=-1))
    ends = np.append(starts[1:], len(order))
    return wheels.kept(np.sort(order[(starts + ends - 1) // 2]))


def _others(wheels: Wheels, axis: str) -> NDArray[Any]:
    """A number for each wheel, the same where all other axes agree."""
    import numpy as np

    code = np.zeros(wheels.count, dtype=np.int64)
    for name, at in wheels.places.items():
        if name != axis:
            code = code * len(getattr(wheels.choices, name)) + at
    return code
