"""Which dimension of a wheel, and which key of its line, matters for which check: margins before
and after small steps."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.checks.result import WORST_FIRST, CheckResult, worst_first
from platewheel.parts.checks.run import run_checks
from platewheel.parts.propose.dimension_steps import DimensionStep, dimension_steps, not_stepped
from platewheel.parts.propose.line_steps import LineStep, line_steps
from platewheel.parts.rating.rate import borne_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_mass_kg

if TYPE_CHECKING:
    from platewheel.parts.rating.assess import Assessment

Assess = Callable[[Setting], "Assessment | None"]
Checks = Callable[[Setting, "Assessment | None"], Sequence[CheckResult]]
FOR_RATING = (  # the dimensions that carry; a few, since each step is a stress analysis
    "tread_thickness_mm",
    "flange_thickness_mm",
    "disc_thickness_mm",
    "weld_throat_mm",
    "root_weld_mm",
)
RATING_CHECKS = ("rating-worn", "rating-new", "life")  # of the stress analysis
LEAST_POINTS = 0.05  # smaller changes are rounding
LEAST_KG = 0.005


@dataclass(frozen=True)
class Shift:
    """What one step does to one check; margins in percentage points of the limit. None where
    the check has no margin on one side of the step, or where its limit moves so that the margin
    as a share goes one way and the room the other."""

    check: str
    points: float | None
    before: CheckResult | None  # None where the check does not apply
    after: CheckResult | None

    @property
    def worse_verdict(self) -> bool:
        """Whether the step turns a pass into a warning or a failure, or a warning into one."""
        if self.after is None or self.after.verdict not in ("warn", "fail"):
            return False
        if self.before is None:
            return True
        return WORST_FIRST.index(self.after.verdict) < WORST_FIRST.index(self.before.verdict)


@dataclass(frozen=True)
class Moved:
    """One step with all that it changes. A wheel that cannot be made has neither mass nor
    shifts; `step.refused` says why. `rated_by_n` is None where the step was not rated."""

    step: DimensionStep | LineStep
    mass_by_kg: float | None
    shifts: tuple[Shift, ...]  # of the checks that change
    rated_by_n: float | None = None

    @property
    def breaks(self) -> tuple[str, ...]:
        """Checks whose verdict it makes worse."""
        return tuple(shift.check for shift in self.shifts if shift.worse_verdict)

    def points(self, check: str) -> float | None:
        """Change of this check's margin in percentage points; None where it is not known."""
        found = [shift.points for shift in self.shifts if shift.check == check]
        return found[0] if found else 0.0


@dataclass(frozen=True)
class Sensitivity:
    """The present wheel's checks, worst first, and every step on the wheel and on its line; rated_n
    None where not rated."""

    checks: tuple[CheckResult, ...]
    mass_kg: float
    rated_n: float | None
    moves: tuple[Moved, ...]
    left_out: tuple[tuple[str, str], ...]  # dimensions that the wheel has not, and why
    line_moves: tuple[Moved, ...] = ()

    def tightest(self, most: int = 8) -> list[CheckResult]:
        """Checks with the least margin that some step moves, at most so many; of a rated wheel
        the tightest check of the rating is always among them."""
        movable = [one for one in self._measured if self._is_moved(one.id)]
        rated = [one for one in movable if one.id in RATING_CHECKS]
        if rated and rated[0] not in movable[:most]:
            return [*movable[: most - 1], rated[0]]
        return movable[:most]

    def unmoved(self, most: int = 8) -> list[CheckResult]:
        """Checks that no step moves, tighter than the last of so many that one does."""
        order = self._measured
        movable = [one for one in order if self._is_moved(one.id)][:most]
        last = order.index(movable[-1]) if movable else len(order)
        return [one for one in order[:last] if not self._is_moved(one.id)]

    @property
    def _measured(self) -> list[CheckResult]:
        """Those whose margin is a share of a limit, which a margin against 0 is not."""
        checks = worst_first(list(self.checks))
        return [one for one in checks if one.margin is not None and one.limit]

    def _is_moved(self, check: str) -> bool:
        return any(abs(moved.points(check) or 0.0) >= LEAST_POINTS for moved in self.moves)


def line_help(found: Sensitivity, check: str) -> Moved | None:
    """The step on the line that raises this check's margin most, of those that make no other
    check's verdict worse; None where none does."""
    gains = [
        moved
        for moved in found.line_moves
        if (moved.points(check) or 0.0) >= LEAST_POINTS and not moved.breaks
    ]
    return max(gains, key=lambda moved: moved.points(check) or 0.0, default=None)


@dataclass(frozen=True)
class Help:
    """A step that raises a check's margin; `points_per_kg` None where it adds no mass."""

    moved: Moved
    points: float
    points_per_kg: float | None


def sensitivity(
    setting: Setting,
    assess: Assess | None = None,
    *,
    checks: Checks = run_checks,
    rate_for: Sequence[str] = FOR_RATING,
    report: Callable[[str], None] = lambda text: None,
) -> Sensitivity:
    """Step every free dimension of the setting's wheel, then what an owner can change of its line,
    and run the checks again; a GeometryError of theirs refuses the step.

    With `assess` (a stress analysis of some seconds a wheel, `parts.rating.assess`) the wheel, the
    steps on the keys in `rate_for` and those on the line are rated too; the load rating and its
    checks then move.
    """
    report("the wheel as it is")
    found = assess(setting) if assess else None
    before = tuple(checks(setting, found))
    mass = wheel_mass_kg(setting.wheel)
    rated = borne_n(setting, found.least.load_n) if found else None
    moves = []
    for step in dimension_steps(setting.wheel):
        report(f"{step.key} {step.way}")
        rate = assess if found and step.key in rate_for else None
        moves.append(_moved(setting, step, checks, before, mass, rated, rate))
    line = []
    for change in line_steps(setting):
        report(f"{change.key} {change.way}")
        line.append(_moved(setting, change, checks, before, mass, rated, assess if found else None))
    lacking = tuple(not_stepped(setting.wheel))
    return Sensitivity(before, mass, rated, tuple(moves), lacking, tuple(line))


def _moved(
    setting: Setting,
    step: DimensionStep | LineStep,
    checks: Checks,
    before: tuple[CheckResult, ...],
    mass_kg: float,
    rated_n: float | None,
    assess: Assess | None,
) -> Moved:
    if step.wheel is None:
        return Moved(step, None, ())
    other = replace(setting, wheel=step.wheel)
    if isinstance(step, LineStep):
        assert step.setting is not None
        other = step.setting
    try:
        found = assess(other) if assess else None
        after = list(checks(other, found))
        mass_by = wheel_mass_kg(step.wheel) - mass_kg
    except GeometryError as error:
        return Moved(refused(step, str(error)), None, ())
    rated_by = None
    if found and rated_n is not None:
        rated_by = borne_n(other, found.least.load_n) - rated_n
    if rated_n is not None and not assess:  # not rated again: nothing is known of these checks
        after = [one for one in after if one.id not in RATING_CHECKS]
        before = tuple(one for one in before if one.id not in RATING_CHECKS)
        unknown = [Shift(name, None, None, None) for name in RATING_CHECKS]
    else:
        unknown = []
    return Moved(step, mass_by, (*_shifts(before, after), *unknown), rated_by)


def refused(step: DimensionStep | LineStep, why: str) -> DimensionStep | LineStep:
    """The step that comes to nothing."""
    if isinstance(step, LineStep):
        return replace(step, setting=None, refused=why)
    return replace(step, wheel=None, refused=why)


def _shifts(before: Sequence[CheckResult], after: Sequence[CheckResult]) -> list[Shift]:
    was, now = ({one.id: one for one in results} for results in (before, after))
    shifts = []
    for name in dict.fromkeys([*was, *now]):
        old, new = was.get(name), now.get(name)
        shift = Shift(name, points_of(old, new), old, new)
        same = old is not None and new is not None and old.verdict == new.verdict
        if not same or (old and new and old.margin != new.margin):
            shifts.append(shift)
    return shifts


def points_of(old: CheckResult | None, new: CheckResult | None) -> float | None:
    """Change of margin. Where the limit moves too it is told only as far as the room itself moves,
    as a share of the old limit: a margin that grows while room is lost is no gain."""
    if old is None or new is None or old.margin is None or new.margin is None:
        return None
    if not old.limit or not new.limit:
        return None  # a margin against 0 is no share of anything
    by = 100 * (new.margin - old.margin)
    if abs(new.limit - old.limit) <= 1e-9 * abs(old.limit):
        return by
    room = 100 * (new.margin * abs(new.limit) / abs(old.limit) - old.margin)
    if abs(by) < LEAST_POINTS or abs(room) < LEAST_POINTS:
        return 0.0
    if by * room < 0:
        return None
    return min(by, room, key=abs) if by > 0 else max(by, room, key=abs)


def best_help(found: Sensitivity, check: str) -> Help | None:
    """The step that raises this check's margin most for each kilogram it adds; None if none does.

    A step that makes another check's verdict worse counts only where no other helps, and one
    that gives less than a tenth of the largest gain not at all. Steps that add no mass go first.
    """
    gains = [(moved, moved.points(check) or 0.0) for moved in found.moves]
    gains = [(moved, points) for moved, points in gains if points >= LEAST_POINTS]
    sound = [(moved, points) for moved, points in gains if not moved.breaks] or gains
    if not sound:
        return None
    most = max(points for _, points in sound)
    worth = [_help(moved, points) for moved, points in sound if points >= most / 10]
    free = [one for one in worth if one.points_per_kg is None]
    if free:
        return max(free, key=lambda one: one.points)
    return max(worth, key=lambda one: one.points_per_kg or 0.0)


def _help(moved: Moved, points: float) -> Help:
    mass = moved.mass_by_kg or 0.0
    return Help(moved, points, points / mass if mass >= LEAST_KG else None)
