"""A job file in a script: read, changed, and asked what the command line answers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from importlib.resources import as_file, files
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING, Any

from platewheel.cli.job.job import Job, job_of, read_with_table
from platewheel.cli.script.changes import with_values
from platewheel.cli.script.own_disc import with_own_disc
from platewheel.cli.script.own_parts import taken_names, with_own_parts
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.one_at_a_time import one_at_a_time
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.own_disc import as_fitted_faults

if TYPE_CHECKING:
    import cadquery as cq

    from platewheel.cli.job.plan import Plan
    from platewheel.cli.script.results import Built, Checks, Laid, Priced, Rated
    from platewheel.nesting.drawings.extra import ExtraPart
    from platewheel.nesting.search.nest import Effort
    from platewheel.nesting.stock.layout import Turns
    from platewheel.parts.geometry.blank import Blank


@dataclass(frozen=True)
class JobFile:
    """A job file that has been found good; `job` holds its sections as typed records.

    Every question is answered as the command of that name does, and writes nothing but `build`.
    What is found once is kept: `check` and `rate` share the stress analysis, `nest` and `cost` the
    plan. Frozen; `changed` and `with_part` give another. `job` in the examples is `demo()`.

    >>> job
    JobFile('oyster-tramway', 48 wheels of 300 mm)
    """

    job: Job
    table: Mapping[str, Any]
    folder: Path
    file: Path | None = None
    parts: tuple[ExtraPart, ...] = ()  # given by the script, beside those of the file
    disc: Blank | None = None  # given by the script, in place of both hub discs
    _whole: Job = field(init=False, compare=False)  # with those parts
    _plans: dict[tuple[str, int], Plan] = field(init=False, default_factory=dict, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_whole", with_own_parts(self.job, self.parts))

    def __repr__(self) -> str:
        job = self.job
        tread = job.wheel.tread_diameter_mm
        return f"JobFile({job.head.name!r}, {so_many(job.head.wheels, 'wheel')} of {tread:g} mm)"

    @one_at_a_time
    def changed(self, values: Mapping[str, Any] | None = None, /, **more: Any) -> JobFile:
        """The job with other values of keys, by all rules of the job file.

        Names are `"section.key"`, a key alone where only one section has it, or the name of rows
        (`stock=[{...}]`) for all of them; None puts a key back to its default, and takes rows out.
        Raises: SpecError with every fault, as for a job file.

        >>> demo().changed(tread_diameter_mm=300.0).job.wheel.tread_diameter_mm
        300.0
        """
        table = with_values(self.table, {} if values is None else values, more)
        job = job_of(table, self.folder, self.file)
        return replace(self, job=with_own_disc(job, self.disc), table=table)

    @one_at_a_time
    def with_part(
        self,
        blank: Blank,
        count: int,
        *,
        turns: Turns = "any",
        finer_than_kerf: bool = False,
    ) -> JobFile:
        """The job with a part of one's own cut along, `count` of them; it lies on the sheets of the
        wheel's steel, as it may turn: "any", "quarter", "half", "fixed".

        `blank` is full size, mm, on any origin; what of it is `finer_than_kerf` is filled with
        steel where that is allowed. Raises: SpecError where its name is taken or no part's, a mark
        cannot be made, the count is less than one, or as an [[extra]] is refused.

        >>> lid = Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0))
        >>> len(job.with_part(lid, 12).parts)
        1
        """
        from platewheel.cli.script.own_part import own_part

        taken = taken_names(self._whole)
        steel = self.job.wheel.steel
        part = own_part(blank, count, turns, steel, taken, finer_than_kerf=finer_than_kerf)
        return replace(self, parts=(*self.parts, part))

    @one_at_a_time
    def with_disc(self, blank: Blank) -> JobFile:
        """The job with hub discs of one's own: spokes, slots of any outline; mm, axis on (0, 0).

        What a job file says by [disc]: `nest`, `cost`, `solids` and `build` have them, no vents of
        the job stay; `check` gives no verdict where a check may ask about the disc, `rate` is None.
        Raises: SpecError where it does not fit ring, hub or plate, is finer than the kerf, or has a
        mark that cannot be made.

        >>> job.with_disc(Blank("mine", "disc", 6.0, Circle((0.0, 0.0), 100.0)))
        Traceback (most recent call last):
        platewheel.parts.base.faults.SpecError: mine.outline: found 200.0; allowed: a diameter ...
        """
        if blank is None:
            raise SpecError([Fault("disc", None, "a Blank", "the job without with_disc")])
        own = with_own_disc(self.job, blank)
        return replace(self, job=own, disc=replace(blank, name="disc", kind="disc"))

    @one_at_a_time
    def check(self, *, quick: bool = False) -> Checks:
        """Every check, worst first; `quick` leaves the stress analysis out. Values in the unit
        that each row tells, limits with their sources.

        >>> job.check(quick=True)["play-least"].verdict
        'pass'
        """
        from platewheel.cli.job.wheelset import checks_with_advice
        from platewheel.cli.report.judged_rows import check_rows
        from platewheel.cli.script.results import Checks

        found = None if quick else _assessed(self.job.setting)
        results = checks_with_advice(self.job, found)
        return Checks(tuple(check_rows(results)), self._units)

    @one_at_a_time
    def rate(self) -> Rated | None:
        """The load that the wheel carries, new and worn, N; None for a wheel that the analysis
        does not know (`check()` says why). Seconds of work.

        >>> round(job.rate().load_n, -2)
        6900.0
        """
        from platewheel.cli.report.judged_rows import rating_row
        from platewheel.cli.script.results import Rated

        found = _assessed(self.job.setting)
        return Rated(rating_row(found, self.job.setting), self._units) if found else None

    @one_at_a_time
    def nest(self, *, effort: Effort = "normal", seed: int = 0) -> Laid:
        """Blanks laid on the job's stock; what finds no room is told, never dropped.

        `effort`: "quick", "normal", "thorough", as the command has it; lengths mm, areas mm2. The
        same job and `seed` give the same plan. Raises: SpecError for another effort or a seed
        below 0.

        >>> job.nest(effort="quick").complete
        True
        """
        from platewheel.cli.output.write import sheet_files
        from platewheel.cli.report.rows import length_rows, nesting_row, sheet_rows
        from platewheel.cli.script.results import Laid

        plan = self._laid(effort, seed)
        return Laid(
            tuple(sheet_rows(self._whole, plan, sheet_files(plan))),
            nesting_row(self._whole, plan),
            tuple(length_rows(self._whole, plan)),
            plan.layouts,
            self._units,
        )

    @one_at_a_time
    def cost(self, *, effort: Effort = "quick", seed: int = 0) -> Priced:
        """What the wheels cost by the job's prices, laid on its stock with this effort; in the
        currency of its [costs]. Raises: SpecError as `nest`.

        >>> job.cost().row.currency
        'EUR'
        """
        from platewheel.cli.money.buying import buying_rows
        from platewheel.cli.money.time_plan import time_plan
        from platewheel.cli.money.wheel_cost import wheel_cost
        from platewheel.cli.report.rows import nesting_row
        from platewheel.cli.script.results import Priced

        job, plan = self._whole, self._laid(effort, seed)
        nesting = nesting_row(job, plan)
        buying, hours = buying_rows(job, plan, nesting), time_plan(job, plan, nesting)
        cost = wheel_cost(job, buying, hours)
        return Priced(cost, tuple(buying), hours.hours, job.head.wheels, self._units)

    @one_at_a_time
    def solids(self, *, welds: bool = True) -> dict[str, cq.Solid]:
        """The wheel's solids by name, mm, its axis Z, z = 0 at the field edge.

        Raises: GeometryError naming the part that the modeller cannot build.

        >>> sorted(job.solids(welds=False))[:3]
        ['disc-field', 'disc-gauge', 'flange-1']
        """
        from platewheel.parts.wheel.assembly import wheel_solids

        return dict(wheel_solids(self.job.wheel, welds=welds, disc=self.job.own_disc))

    @one_at_a_time
    def build(
        self,
        folder: str | PathLike[str] = "out",
        *,
        effort: Effort = "normal",
        seed: int = 0,
        what_fits: bool = False,
    ) -> Built:
        """Everything written to `folder`/<job name>, put in place when complete.

        `what_fits`: the whole wheels that the stock holds, where it does not hold all. Raises:
        SpecError where a gauge cannot be made, or as `nest`; NotFinished where the stock is too
        little, or the folder is not ours to replace.

        >>> job.build(effort="hasty")
        Traceback (most recent call last):
        platewheel.parts.base.faults.SpecError: effort: found 'hasty'; allowed: ...
        """
        from platewheel.cli.output.build import build_job
        from platewheel.cli.script.asked import PlanAsked
        from platewheel.cli.script.results import Built

        require_kind("folder", folder, (str, PathLike), "the name or path of a folder", '"out"')
        PlanAsked(effort=effort, seed=seed)
        if self.job.own_disc and (faults := [*as_fitted_faults(self.job.wheel, self.job.own_disc)]):
            raise SpecError(faults)  # papers tell the gaps of the wheel
        job, out = self._whole, Path(folder)
        report = build_job(job, out, seed, lambda text: None, effort, what_fits=what_fits)
        return Built(out / job.head.name, report, self._units)

    def _laid(self, effort: Effort, seed: int) -> Plan:
        """The plan, once for an effort: asked by `nest` and `cost` alike."""
        from platewheel.cli.job.plan import plan_job
        from platewheel.cli.script.asked import PlanAsked

        PlanAsked(effort=effort, seed=seed)
        if (effort, seed) not in self._plans:
            self._plans[effort, seed] = plan_job(self._whole, seed, lambda text: None, effort)
        return self._plans[effort, seed]

    @property
    def _units(self) -> Units:
        return self.job.paper.units


@one_at_a_time
def load(path: str | PathLike[str]) -> JobFile:
    """A job file, read and checked; drawings that it names are read beside it, its ledger stays
    the one there wherever the script goes. Raises: SpecError with every fault.

    >>> load("no-such.toml")
    Traceback (most recent call last):
    platewheel.parts.base.faults.SpecError: no-such.toml: ...
    """
    require_kind(
        "path", path, (str, PathLike), "the name or path of a job file", '"my-wheels.toml"'
    )
    file = Path(path)
    job, table = read_with_table(file)
    home = file.absolute()
    return JobFile(_at_home(job), table, home.parent, home)


@one_at_a_time
def demo() -> JobFile:
    """The bundled example, a salt-marsh oyster tramway of 457 mm gauge.

    >>> demo().job.track.gauge_mm
    457.0
    """
    with as_file(files("platewheel.cli.job") / "demo.toml") as path:
        return load(path)


def _at_home(job: Job) -> Job:
    if job.rack is None:
        return job
    ledger = replace(job.rack.ledger, path=job.rack.ledger.path.absolute())
    return replace(job, rack=replace(job.rack, ledger=ledger))


@lru_cache(maxsize=16)
def _assessed(setting: Setting) -> Assessment | None:
    """The stress analysis, once for a setting: seconds, and asked by `check` and `rate` alike."""
    return assess(setting)
