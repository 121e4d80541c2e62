"""Two jobs side by side: keys, figures and checks that differ, and which job is better where."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

from platewheel.cli.job.job import FIELDS, Job, read_job
from platewheel.cli.job.plan import lacking, plan_job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.money.buying import buying_rows
from platewheel.cli.money.time_plan import time_plan
from platewheel.cli.money.wheel_cost import wheel_cost
from platewheel.cli.report.rows import nesting_row
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.schema.report import NestingRow
from platewheel.cli.schema.shop import CostRow, TimePlanRow
from platewheel.cli.work.not_finished import NotFinished
from platewheel.cli.work.progress import Steps
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.checks.result import WORST_FIRST, CheckResult
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.rating.rate import borne_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_mass_kg

Better = Literal["A", "B", ""]
Assess = Callable[[Setting], Assessment | None]
LEAST_MARGIN = 0.0005  # a twentieth of a percentage point: what is shown


@dataclass(frozen=True)
class KeyRow:
    """A key of the job file that differs; None where one job has no such row."""

    key: str
    a: Any
    b: Any


@dataclass(frozen=True)
class FigureRow:
    """A figure of both jobs, None where it is not known; better is empty where they are equal or
    cannot be set beside each other."""

    name: str
    unit: str
    a: float | None
    b: float | None
    better: Better


@dataclass(frozen=True)
class CheckPair:
    """A check whose verdict or margin differs; None where it does not apply to that wheel."""

    id: str
    title: str
    a: CheckResult | None
    b: CheckResult | None
    better: Better


@dataclass(frozen=True)
class Side:
    """What was found of one job; nesting, hours and cost are None where its stock falls short,
    and `short` says why."""

    job: Job
    checks: list[CheckResult]
    rating: Assessment | None
    nesting: NestingRow | None
    hours: TimePlanRow | None
    cost: CostRow | None
    short: list[str]


@dataclass(frozen=True)
class Comparison:
    """Job A beside job B."""

    a: Side
    b: Side
    keys: list[KeyRow]
    figures: list[FigureRow]
    checks: list[CheckPair]


def read_both(files: tuple[Path, Path]) -> tuple[Job, Job]:
    """Both jobs. Raises: SpecError with the faults of both files, each with its file's name."""
    jobs, faults = [], list[Fault]()
    for file in files:
        try:
            jobs.append(read_job(file, gauges_cut=True))
        except SpecError as error:
            faults += [_of_file(fault, file) for fault in error.faults]
    if faults:
        raise SpecError(dict.fromkeys(faults))  # a file given twice is told once
    return jobs[0], jobs[1]


def _of_file(fault: Fault, file: Path) -> Fault:
    if fault.key == str(file):
        return fault
    return replace(fault, key=f"{file}: {fault.key}")


def compare_jobs(a: Job, b: Job, step: Steps, assess: Assess | None = None) -> Comparison:
    """Check, lay (quick effort) and price both; rate both where `assess` is given."""
    one = _side(a, step, assess, "A")
    two = _side(b, step, assess, "B")
    keys, checks = list(differing_keys(a, b)), list(_pairs(one.checks, two.checks))
    return Comparison(one, two, keys, list(_figures(one, two)), checks)


def _side(job: Job, step: Steps, assess: Assess | None, name: str) -> Side:
    step(f"{name}: checks")
    rating = assess(job.setting) if assess else None
    checks = job_checks(job, rating)
    plan = plan_job(job, 0, lambda text: step(f"{name}: {text}"), "quick")
    short = lacking(job, plan)
    if short:
        return Side(job, checks, rating, None, None, None, short)
    try:
        nesting = nesting_row(job, plan)
        buying = buying_rows(job, plan, nesting)
    except NestingError as error:  # a kerf in the path that does not go into a hollow
        return Side(job, checks, rating, None, None, None, [str(error)])
    hours = time_plan(job, plan, nesting)
    cost = wheel_cost(job, buying, hours)
    return Side(job, checks, rating, nesting, hours, cost, [])


def require_stock_of_both(found: Comparison, files: tuple[Path, Path]) -> None:
    """Raises: NotFinished naming each blank that fits no stock, with its file."""
    sides = zip(files, (found.a, found.b), strict=True)
    lines = [f"{file}: {line}" for file, side in sides for line in side.short]
    if lines:
        raise NotFinished(list(dict.fromkeys(lines)))


def differing_keys(a: Job, b: Job) -> Iterator[KeyRow]:
    """Keys whose values differ, defaults counted as values, by section; rows by their number."""
    for name in SINGLE:
        old, new = (_section(job, name) for job in (a, b))
        pairs = ((key, old.get(key), new.get(key)) for key in dict.fromkeys((*old, *new)))
        yield from (KeyRow(f"{name}.{key}", x, y) for key, x, y in pairs if x != y)
    for name in REPEATED:
        first, second = (_rows(job, name) for job in (a, b))
        for i in range(max(len(first), len(second))):
            one = first[i] if i < len(first) else None
            two = second[i] if i < len(second) else None
            if one is None or two is None:
                yield KeyRow(f"{name}[{i}]", one, two)
            else:
                keys = (k for k in one if one[k] != two[k])
                yield from (KeyRow(f"{name}[{i}].{k}", one[k], two[k]) for k in keys)


def _section(job: Job, name: str) -> dict[str, Any]:
    section = getattr(job, FIELDS.get(name, name))
    if section is None:  # [disc] where there is none
        return {}
    told: dict[str, Any] = section.model_dump()
    if name == "disc" and job.own_disc:  # two drawings of one name may differ
        told["area_mm2"] = round(job.own_disc.area_mm2, 3)
    return told


def _rows(job: Job, name: str) -> list[dict[str, Any]]:
    rows = getattr(job, FIELDS.get(name, name))
    if name != "extra":
        return [row.model_dump() for row in rows]
    return [  # two drawings of one name may differ: the blank's area tells
        row.spec.model_dump() | {"area_mm2": round(row.blank.area_mm2, 3)} for row in rows
    ]


def _figures(a: Side, b: Side) -> Iterator[FigureRow]:
    """Totals are judged only where both jobs make as many wheels, plates only where they are of
    the same sizes, prices only in one currency with the same parts priced."""
    sides = (a, b)
    masses = [wheel_mass_kg(side.job.wheel, disc=side.job.own_disc) for side in sides]
    yield _figure("mass of a wheel", "kg", masses, least=True)
    if a.rating or b.rating:
        rated = [
            borne_n(side.job.setting, side.rating.least.load_n) if side.rating else None
            for side in sides
        ]
        payload = [side.rating.payload_kg if side.rating else None for side in sides]
        yield _figure("mean wheel load borne", "N", rated)
        yield _figure("payload a wagon may carry", "kg", payload)
    for verdict in ("fail", "warn"):
        counts = [float(sum(c.verdict == verdict for c in side.checks)) for side in sides]
        yield _figure(f"checks that {verdict}", "", counts, least=True)
    alike = a.job.head.wheels == b.job.head.wheels
    laid = [side.nesting for side in sides]
    plates = [float(one.sheets_used) if one else None for one in laid]
    yield _figure(
        "plates, all wheels", "", plates, least=True, fair=alike and _same_plates(a.job, b.job)
    )
    scraps = [one.scrap_percent if one else None for one in laid]
    yield _figure("scrap", "% of the plates", scraps, least=True)
    kept = [one.scrap_percent_after_offcuts if one else None for one in laid]
    yield _figure("scrap after offcuts", "% of the plates", kept, least=True)
    cutting = [one.cutting_hours + one.setup_hours if one else None for one in laid]
    yield _figure("cutting and setting up, all wheels", "h", cutting, least=True, fair=alike)
    work = [side.hours.hours_per_wheel if side.hours else None for side in sides]
    yield _figure("work on a wheel", "h", work, least=True)
    yield _cost(a.cost, b.cost)


def _same_plates(a: Job, b: Job) -> bool:
    """Whether the plates to hand are of the same sizes, whatever they cost."""
    one, two = ({(s.width_mm, s.length_mm) for s in job.stock} for job in (a, b))
    return one == two and a.offcuts == b.offcuts


def _cost(a: CostRow | None, b: CostRow | None) -> FigureRow:
    prices = [cost.per_wheel if cost else None for cost in (a, b)]
    known = [cost for cost in (a, b) if cost]
    currencies = list(dict.fromkeys(cost.currency for cost in known))
    fair = len(currencies) == 1 and len({tuple(cost.not_priced) for cost in known}) == 1
    return _figure("cost of a wheel", " and ".join(currencies), prices, least=True, fair=fair)


def _figure(
    name: str,
    unit: str,
    values: Sequence[float | None],
    *,
    least: bool = False,
    fair: bool = True,
) -> FigureRow:
    a, b = values
    return FigureRow(name, unit, a, b, better_of(a, b, least=least) if fair else "")


def better_of(a: float | None, b: float | None, *, least: bool = False) -> Better:
    """Which is better, where both are known and differ by more than rounding."""
    if a is None or b is None or abs(a - b) <= 1e-6 * max(abs(a), abs(b)):
        return ""
    return "A" if (a < b) == least else "B"


def _pairs(a: Sequence[CheckResult], b: Sequence[CheckResult]) -> Iterator[CheckPair]:
    """Checks that differ, in the order of A's worst first, B's own after them."""
    one, two = ({check.id: check for check in checks} for checks in (a, b))
    for id in dict.fromkeys([*one, *two]):
        first, second = one.get(id), two.get(id)
        known = first or second
        assert known is not None
        if first is None or second is None:
            yield CheckPair(id, known.title, first, second, "")
        elif first.verdict != second.verdict or _margins_differ(first, second):
            yield CheckPair(id, known.title, first, second, _better_check(first, second))


def _margins_differ(a: CheckResult, b: CheckResult) -> bool:
    if a.margin is None or b.margin is None:
        return a.margin is not b.margin
    return abs(a.margin - b.margin) >= LEAST_MARGIN


def _better_check(a: CheckResult, b: CheckResult) -> Better:
    """By verdict, then by margin; a check not assessed on one side says nothing."""
    if "not-assessed" in (a.verdict, b.verdict):
        return ""
    if a.verdict != b.verdict:
        return "A" if WORST_FIRST.index(a.verdict) > WORST_FIRST.index(b.verdict) else "B"
    return better_of(a.margin, b.margin)
