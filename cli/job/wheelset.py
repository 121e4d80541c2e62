"""The wheelset as part of a job: made where the file has [axle], checked with the wheel."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from platewheel.cli.job.job import Job
from platewheel.parts.base.faults import GeometryError, SpecError
from platewheel.parts.checks.advice import with_cures
from platewheel.parts.checks.own_disc import own_disc_checks
from platewheel.parts.checks.rating_advice import with_advice
from platewheel.parts.checks.result import CheckResult, worst_first
from platewheel.parts.checks.run import run_checks
from platewheel.parts.checks.run_wheelset import run_wheelset_checks
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset

ASKED = ("wheel", "track", "wagon", "finish", "use", "axle", "shop", "way")  # of a setting


@dataclass(frozen=True)
class Made:
    """A job's wheelset, or why it has none; both empty where the job has no [axle]."""

    wheelset: Wheelset | None = None
    why_not: tuple[str, ...] = ()


def job_wheelset(job: Job) -> Made:
    """The wheelset of a job with [axle]; faults of it do not stop the wheel."""
    if not job.has_axle:
        return Made()
    try:
        return Made(wheelset(job.setting))
    except SpecError as error:
        return Made(None, tuple(f"no wheelset is made: {fault}" for fault in error.faults))


def job_checks(job: Job, found: Assessment | None = None) -> list[CheckResult]:
    """Every check of the wheel and, where the job has one, of its wheelset; worst first."""
    made = job_wheelset(job).wheelset
    if job.own_disc is not None:
        return own_disc_checks(job.setting, made)
    results = run_checks(job.setting, found)
    if made is not None:
        results = worst_first([*results, *run_wheelset_checks(job.setting, made)])
    return results


def checks_with_advice(job: Job, found: Assessment | None) -> list[CheckResult]:
    """The same, and where the load rating fails, or a check names no value, what was found
    to do."""
    results = with_cures(job_checks(job, found), job.setting, job_wheelset(job).wheelset)
    return with_advice(results, job.setting, found, checks_of(job))


def checks_of(job: Job) -> Callable[[Setting, Assessment | None], list[CheckResult]]:
    """The same asked of other wheels of this job, or on another line. Raises, when asked:
    GeometryError for a wheel that its axle does not take, where it takes the job's own."""
    has_wheelset = job_wheelset(job).wheelset is not None

    def _asked(setting: Setting, found: Assessment | None) -> list[CheckResult]:
        one = replace(job, **{name: getattr(setting, name) for name in ASKED})
        if has_wheelset and (why_not := job_wheelset(one).why_not):
            raise GeometryError("; ".join(why_not))
        return job_checks(one, found)

    return _asked
