"""Millions of wheels judged at once: each question is put once for every different answer it can
have, and the answers are spread over all wheels.

A check reads only some of a wheel's dimensions. Which, is found by watching it read; two wheels
that agree in those agree in its result, so one of them is judged for all. The arrays hold, for
each wheel that is still in, its place on every axis of `parts.propose.choices`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from platewheel.parts.base.spec_model import Unknown
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.propose.choices import AXES, HANGS_ON, PLAY, Choices, goes, wheel_values
from platewheel.parts.propose.play import axle_set
from platewheel.parts.propose.watching import met_by, watched_wheel
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MOST_QUESTIONS = 6000  # of one check; what would ask more is left till later
SETTLING = 60_000  # of one check that decides on a dimension about to be settled
# checks of some milliseconds each: asked of all where few questions do, else of those in question
COSTLY = {"axle_fatigue_safety": 1000}
ESTIMATED = {"flange_wear"}  # orders of magnitude: told of a wheel, never held against it
MOST_KEYS = 15  # that a check reads; what hangs on more of the wheel is left to the finalists
Check = Callable[[Setting], CheckResult | None]


@dataclass
class Wheels:
    """Wheels still in: `places[axis]` has each one's place on that axis. Axes that are not there
    yet are not chosen yet."""

    base: WheelSpec
    choices: Choices
    places: dict[str, NDArray[np.int16]]
    own: dict[str, Any]  # the base's keys
    known: dict[Any, frozenset[str]] = field(default_factory=dict)  # what each question reads

    @property
    def count(self) -> int:
        return len(next(iter(self.places.values())))

    def kept(self, keep: NDArray[Any]) -> Wheels:
        """Those at `keep`, a mask or places in the arrays."""
        return replace(self, places={axis: at[keep] for axis, at in self.places.items()})

    def chosen(self, row: int) -> dict[str, int]:
        """One wheel's place on each axis."""
        return {axis: int(at[row]) for axis, at in self.places.items()}

    def values(self, row: int) -> dict[str, Any]:
        """One wheel's keys."""
        return wheel_values(self.own, self.choices, self.chosen(row))

    def play_mm(self, row: int) -> float | None:
        """The play that one wheel's axle is set for; None: as the job has it."""
        return self.choices.play[int(self.places["play"][row])]

    def read(self, row: int) -> dict[str, Any]:
        """All that a question may read of one: its keys and its play."""
        return self.values(row) | {PLAY: self.play_mm(row)}

    def setting(self, setting: Setting, row: int) -> Setting:
        """The setting with one of them, unchecked, on its axle."""
        wheel = WheelSpec.model_construct(**self.values(row))
        return replace(setting, wheel=wheel, axle=axle_set(setting, wheel, self.play_mm(row)))


def first_wheels(base: WheelSpec, choices: Choices) -> Wheels:
    """Every ring stock at every diameter that it goes with, for the first play."""
    import numpy as np

    pairs = [
        (d, r)
        for d in range(len(choices.diameter))
        for r in range(len(choices.ring))
        if goes(choices, d, r)
    ]
    table = np.array(pairs, dtype=np.int16).reshape(-1, 2)
    places = {"diameter": table[:, 0], "ring": table[:, 1]}
    places["play"] = np.zeros(len(table), dtype=np.int16)
    return Wheels(base, choices, places, base.model_dump())


def widened(wheels: Wheels, axis: str) -> Wheels:
    """Every wheel with every choice on one axis more, or in place of the first on that of plays."""
    import numpy as np

    size = len(getattr(wheels.choices, axis))
    places = {name: np.repeat(at, size) for name, at in wheels.places.items()}
    places[axis] = np.tile(np.arange(size, dtype=np.int16), wheels.count)
    return replace(wheels, places=places)


def asked(
    wheels: Wheels, question: Callable[[WheelSpec], float], key: Any, most: int | None = None
) -> NDArray[np.float64] | None:
    """The answer of `question` for every wheel; None where it reads an axis that is not chosen
    yet, or would have to be asked more than `most` times. `key` names it for what it reads."""
    import numpy as np

    if not wheels.count:
        return np.empty(0)
    reads = wheels.known.get(key, frozenset())
    while True:
        axes = sorted({axis for name in reads for axis in HANGS_ON.get(name, ())}, key=_order)
        if any(axis not in wheels.places for axis in axes):
            return None
        if most is not None and len(reads) > MOST_KEYS:
            return None
        groups, first = _groups(wheels, axes)
        if most is not None and len(first) > most:
            return None
        found = np.empty(len(first))
        for k, row in enumerate(first):
            found[k], read = watched(wheels, int(row), question)
            if not read <= reads:
                reads = wheels.known[key] = reads | read
                if {a for name in read for a in HANGS_ON.get(name, ())} - set(axes):
                    break  # it hangs on more than was thought: group anew
        else:
            return np.asarray(found[groups])


def _order(axis: str) -> int:
    return (*AXES, "segments").index(axis)


def _groups(wheels: Wheels, axes: list[str]) -> tuple[NDArray[Any], NDArray[Any]]:
    """For each wheel the number of its group of equal places on `axes`, and each group's first."""
    import numpy as np

    code = np.zeros(wheels.count, dtype=np.int64)
    for axis in axes:
        code = code * len(getattr(wheels.choices, axis)) + wheels.places[axis]
    _, first, groups = np.unique(code, return_index=True, return_inverse=True)
    return groups, first


def watched(
    wheels: Wheels, row: int, question: Callable[[WheelSpec], float]
) -> tuple[float, frozenset[str]]:
    """The answer for one wheel, and which of its keys, its play among them, were read for it."""
    wheel = watched_wheel(wheels.read(row))
    answer = question(wheel)
    return answer, frozenset(wheel.__dict__)


def possible(wheel: WheelSpec) -> Iterator[tuple[str, Callable[[WheelSpec], float]]]:
    """Each rule between a wheel's dimensions as a question: 1 where it holds, else 0."""
    for rule in type(wheel).rules:

        def holds(one: WheelSpec, rule: Any = rule) -> float:
            try:
                return float(not any(True for _ in rule(one)))
            except Unknown:
                return 1.0

        yield rule.__name__, holds


PASSED, WARNED, FAILED = 0.0, 1.0, 2.0


def judge(setting: Setting, check: Check) -> Callable[[WheelSpec], float]:
    """A check as a question: passed (or does not apply), warned or failed."""

    def verdict(one: WheelSpec) -> float:
        result = check(met_by(setting, one))
        if result is None:
            return PASSED
        return {"fail": FAILED, "warn": WARNED}.get(result.verdict, PASSED)

    return verdict


@dataclass
class ByPlay:
    """What a sift noted of checks that hang on the play: they and the wheels that they held back,
    and whether one of them warned of all. `borne` has every check that did."""

    held: list[tuple[Check, Wheels]] = field(default_factory=list)
    warned: bool = False
    borne: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class Sieve:
    """What one rule or check did: how many came to it, how many it let through, and how many it
    held back for a warning alone."""

    check: str
    came: int
    passed: int
    warned: int = 0


def sift(
    wheels: Wheels,
    setting: Setting,
    checks: Iterable[Check],
    settling: str | None = None,
    allowed: Collection[str] = (),
    noted: ByPlay | None = None,
    strict: bool = False,
) -> tuple[Wheels, list[Sieve], list[Check]]:
    """Wheels that pass rules and checks as far as their axes are chosen; a warning that some
    wheels are free of (`strict`: any) counts as failed, unless its check is `allowed` to warn or
    one of ESTIMATED.
    Also what each check did, and the checks not yet asked. What hangs on the axis `settling` is
    asked however often it takes, up to SETTLING times. What hangs on the play is `noted`.
    """

    def answers(
        question: Callable[[WheelSpec], float], key: Any, most: int = MOST_QUESTIONS
    ) -> NDArray[np.float64] | None:
        found = asked(wheels, question, key, most)
        reads = wheels.known.get(key, frozenset())
        if found is None and any(settling in HANGS_ON.get(name, ()) for name in reads):
            return asked(wheels, question, key, SETTLING)
        return found

    told: list[Sieve] = []
    for name, holds in possible(wheels.base):
        good = answers(holds, name)
        if good is not None:
            wheels = _through(wheels, good > 0, name, told)
    left = []
    for check in checks:
        most = COSTLY.get(check.__name__, MOST_QUESTIONS)
        verdicts = answers(judge(setting, check), check, most)
        if verdicts is None:
            left.append(check)
            continue
        if not len(verdicts):
            continue
        name = check.__name__
        borne = name not in allowed and name not in ESTIMATED
        free = (strict or (verdicts == PASSED).any()) and borne
        best = PASSED if free else WARNED
        if noted is not None:
            _note(noted, wheels, check, verdicts, best, borne=borne)
        only_warned = int(((verdicts > best) & (verdicts < FAILED)).sum())
        wheels = _through(wheels, verdicts <= best, name, told, only_warned)
    return wheels, told, left


def _note(
    noted: ByPlay,
    wheels: Wheels,
    check: Check,
    verdicts: NDArray[np.float64],
    best: float,
    *,
    borne: bool,
) -> None:
    by_play = PLAY in wheels.known.get(check, ())
    if by_play and (verdicts > best).any():
        noted.held.append((check, wheels.kept(verdicts > best)))
    if borne and best == WARNED and (verdicts == WARNED).any():
        noted.borne.add(check.__name__)
        noted.warned |= by_play


def _through(
    wheels: Wheels, good: NDArray[Any], name: str, told: list[Sieve], warned: int = 0
) -> Wheels:
    told.append(Sieve(name, wheels.count, int(good.sum()), warned))
    return wheels if good.all() else wheels.kept(good)
