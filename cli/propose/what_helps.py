"""Where no wheel is strong enough: the smallest change of one key with which the strongest is.

Each change was tried in full: the wheel is rated, meets every check, has the reserve, and goes on
the stock. What was not tried is not told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from platewheel.cli.job.job import Job
from platewheel.cli.propose.finalists import finalist
from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.screening import Check
from platewheel.parts.propose.sifting import sifted_at_last
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.rating.payload import with_payload

TRIES, STEP = 8, 0.94  # each try is a full rating; steps of 6 % down
SHARES = (0.8, 0.6, 0.4, 0.2, 0.0)  # of the payload, screened


def smallest_changes(job: Job, reserve: float) -> list[str]:
    """Of a job with the strongest wheel on it: lines for payload and years, each with what stands
    in the job; what eats the wheel's life first."""
    found, wheel = assess(job.setting), job.wheel
    if found is None:
        return []
    size = f"{wheel.tread_diameter_mm:g} mm of {wheel.tread_from}"
    lines = [_eaten(found, job)]
    payload = _tried(job, reserve, "wagon", "payload_kg", max(found.payload_kg, 0.0))
    if payload is not None:
        lines.append(
            f"this would do: wagon.payload_kg = {payload:g} in place of "
            f"{job.wagon.payload_kg:g}, on the strongest analysed, {size}"
        )
    lasts = found.life_km / job.use.km_per_year
    years = _tried(job, reserve, "use", "years", lasts) if lasts < job.use.years else None
    if years is not None:
        lines.append(
            f"this would do: use.years = {years:g} in place of {job.use.years:g}, on that wheel"
        )
    return lines


def lighter_payload(job: Job, choices: Choices, checks: Sequence[Check]) -> list[str]:
    """A line for the largest payload tried with which wheels pass the screening; none where not
    even the empty wagon lets one pass."""
    for share in SHARES:
        payload = float(f"{share * job.wagon.payload_kg:.3g}")
        other = with_payload(job.setting, payload)
        if sifted_at_last(other, choices, tuple(checks)).wheels.count:
            return [
                f"this would let wheels through the screening: wagon.payload_kg = {payload:g} in "
                f"place of {job.wagon.payload_kg:g}"
            ]
    return []


def _eaten(found: Assessment, job: Job) -> str:
    limit = found.least.governs
    told = f"the strongest is limited by {limit.name}: {limit.where}"
    if not found.by_block:
        return told
    most = max(found.by_block, key=lambda one: one.damage + one.joints)
    whole = sum(one.damage + one.joints for one in found.by_block) or 1.0
    need = job.use.km_per_year * job.use.years
    return (
        f"{told}; it lasts {min(found.life_km, 1e9):.0f} km of {need:.0f}, and "
        f"{100 * (most.damage + most.joints) / whole:.0f} % of the harm comes from the "
        f"{most.where}, {most.state}"
    )


def _tried(job: Job, reserve: float, section: str, key: str, start: float) -> float | None:
    """The first value from `start` down with which the job's wheel is proposed; None where none
    is."""
    spec = getattr(job, section)
    value = start / (1 + reserve)
    for _ in range(TRIES):
        rounded = float(f"{value:.3g}")
        try:
            other = type(spec)(**(spec.model_dump() | {key: rounded}))
        except SpecError:
            return None
        judged = finalist(replace(job, **{section: other}), 0.0, reserve)
        if not isinstance(judged, str):
            return rounded
        value *= STEP
    return None
