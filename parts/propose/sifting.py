"""From all wheels that a shop could make to those that pass every closed-form check."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from platewheel.parts.checks.run import CHECKS
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.screening import (
    ByPlay,
    Check,
    Sieve,
    Wheels,
    first_wheels,
    sift,
    widened,
)
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

    Four dimensions cost next to nothing and are settled here: of the plays that pass the first,
    of the flange angles then the one in the middle, as far from climbing as from grinding; of fit
    clearances and vents, the least that pass. Warnings of the checks `allowed` count as passed.
    """
    wheels, told, left, most = rims(setting, choices, checks, allowed)
    for axes, settle in (
        (("disc", "inset", "fit"), "fit"),
        (("throat", "root"), None),
        (("vents",), "vents"),
        (("segments",), None),
    ):
        if not wheels.count:
            break
        for axis in axes:
            wheels = widened(wheels, axis)
        most = max(most, wheels.count)
        # nothing may be settled before all that it decides has been asked
        wheels, seen, left = sift(wheels, setting, left, settle, allowed)
        told += seen
        if settle:
            wheels = first_of(wheels, settle)
    return Sifted(wheels, tuple(told), most, tuple(left))


Rims = tuple[Wheels, list[Sieve], list[Check], int]


def rims(
    setting: Setting, choices: Choices, checks: Sequence[Check], allowed: Collection[str] = ()
) -> Rims:
    """Ring and flange of every size that passes what they decide, with the first play that lets
    them and the angle in the middle; what each check did, the checks left, the most judged.

    Another play is asked for those alone that a check which hangs on it held back at the first:
    the answer is that of asking all, and most jobs never need it.
    """
    wheels, noted = first_wheels(setting.wheel, choices), ByPlay()
    own = _rims(wheels, setting, checks, allowed, noted)
    if len(choices.play) == 1 or not (noted.held or noted.warned):
        return own
    if noted.warned:  # another play may be free of what the first is warned of
        return _rims(widened(wheels, "play"), setting, checks, allowed, None)
    other = _of_other_plays(own[0], [wheels for _, wheels in noted.held])
    alone = not own[0].count
    if not other.count:
        return own
    may, first = {*allowed, *noted.borne}, {check for check, _ in noted.held}
    in_turn = sorted(checks, key=lambda check: check not in first)  # most fail there again
    more = _rims(other, setting, in_turn, may, None, RIM, strict=not alone)
    left = [check for check in checks if check in own[2] or check in more[2]]
    both = more[0] if alone else _joined(own[0], more[0])
    return both, own[1] + more[1], left, max(own[3], more[3])


RIM = ("diameter", "ring", "flange", "depth")


def _rims(
    wheels: Wheels,
    setting: Setting,
    checks: Iterable[Check],
    allowed: Collection[str],
    noted: ByPlay | None,
    there: Collection[str] = (),
    *,
    strict: bool = False,
) -> Rims:
    """The two stages of `rims` on these wheels, some axes of which may be `there` already."""
    left, told, most = list(checks), list[Sieve](), 0
    for axes, settle in ((("flange", "depth"), None), (("angle",), "angle")):
        for axis in axes:
            wheels = wheels if axis in there else widened(wheels, axis)
        most = max(most, wheels.count)
        wheels, seen, left = sift(wheels, setting, left, settle, allowed, noted, strict)
        told += seen
        if not wheels.count:
            return wheels, told, left, most
    return middle_of(_first_play(wheels), "angle"), told, left, most


def _first_play(wheels: Wheels) -> Wheels:
    """Of each rim the wheels with the first play that any of its angles passes with."""
    import numpy as np

    _, rim = np.unique(_code(wheels, RIM), return_inverse=True)
    first = np.full(rim.max(initial=-1) + 1, len(wheels.choices.play))
    np.minimum.at(first, rim.ravel(), wheels.places["play"])
    return wheels.kept(wheels.places["play"] == first[rim.ravel()])


def _of_other_plays(own: Wheels, held: Sequence[Wheels]) -> Wheels:
    """The rims held back that none of `own` has, with every play but the first."""
    import numpy as np

    places = {axis: np.concatenate([part.places[axis] for part in held]) for axis in RIM}
    places["play"] = np.zeros(len(places["ring"]), dtype=np.int16)
    every = replace(own, places=places)
    code = _code(every, RIM)
    _, once = np.unique(code, return_index=True)
    lost = every.kept(once[~np.isin(code[once], _code(own, RIM))])
    wide = widened(lost, "play")
    return wide.kept(wide.places["play"] > 0)


def _joined(one: Wheels, other: Wheels) -> Wheels:
    """Both; the second may have come to nothing before all its axes were chosen."""
    import numpy as np

    if not other.count:
        return one
    places = {axis: np.concatenate([at, other.places[axis]]) for axis, at in one.places.items()}
    return replace(one, places=places)


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
    return _one_of_each(wheels, axis, lambda first, last: first)


def middle_of(wheels: Wheels, axis: str) -> Wheels:
    """Of wheels that differ on this axis alone, the one in the middle of those left; of two
    in the middle the first."""
    return _one_of_each(wheels, axis, lambda first, last: (first + last) // 2)


def _one_of_each(wheels: Wheels, axis: str, of: Callable[[Any, Any], Any]) -> Wheels:
    """Of wheels that differ on this axis alone, lowest first, the one at the place that `of` makes
    of the places of the first and the last."""
    import numpy as np

    if not wheels.count:
        return wheels
    code = _others(wheels, axis)
    order = np.lexsort((wheels.places[axis], code))
    starts = np.flatnonzero(np.diff(code[order], prepend=-1))
    ends = np.append(starts[1:], len(order))
    return wheels.kept(np.sort(order[of(starts, ends - 1)]))


def _others(wheels: Wheels, axis: str) -> NDArray[Any]:
    """A number for each wheel, the same where all other axes agree."""

    return _code(wheels, [name for name in wheels.places if name != axis])


def _code(wheels: Wheels, axes: Iterable[str]) -> NDArray[Any]:
    """A number for each wheel, the same where these axes agree."""
    import numpy as np

    code = np.zeros(wheels.count, dtype=np.int64)
    for name in axes:
        code = code * len(getattr(wheels.choices, name)) + wheels.places[name]
    return code
