"""Why no wheel is proposed, and what was found to help."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.propose.played import found_job
from platewheel.cli.propose.wanted import Wanted
from platewheel.cli.schema.propose import SieveRow
from platewheel.parts.base.so_many import so_many
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.never_passed import never_passed, running_choices
from platewheel.parts.propose.rate_until_known import Found, needed_n
from platewheel.parts.propose.screening import Check
from platewheel.parts.propose.sifting import Sifted
from platewheel.parts.rating.assess import assess

MOST_TITLES = 3  # of checks told


def held_back(job: Job, sift: Sifted, checks: Sequence[Check]) -> list[str]:
    """The checks that held most wheels back for a warning alone."""
    most = sorted((s for s in sift.sieves if s.warned), key=lambda s: -s.warned)
    return titles_of(job, [sieve.check for sieve in most[:MOST_TITLES]], checks)


def titles_of(job: Job, names: Sequence[str], checks: Sequence[Check]) -> list[str]:
    """Titles of checks by their names, as the wheel of the job file has them."""
    results = {check.__name__: check(job.setting) for check in checks if check.__name__ in names}
    return [found.title if (found := results.get(name)) else name for name in names]


def why_none(
    job: Job, choices: Choices, checks: Sequence[Check], sieves: Sequence[SieveRow]
) -> list[str]:
    """Why no wheel passes the closed forms."""
    never = never_passed(job.setting, choices)
    lines = [f"no wheel passes {check.title}: {check.says}" for check in never]
    runs = running_choices(job.setting, choices)
    if not lines and runs:
        last = sieves[-1].check if sieves else "the stock to hand"
        own = [check(job.setting) for check in checks if check.__name__ == last]
        title = titles_of(job, [last], checks)[0]
        lines.append(
            f"no wheel that the stock and the shop allow passes {title}; see the sieve: "
            "other [[stock]], [[bar]] or [shop] values may, or less load"
        )
        failed = [result.says for result in own if result and result.verdict == "fail"]
        lines += [f"the wheel of the job file: {says}" for says in failed]
        if sum(sieve.warned > 0 for sieve in sieves) > 1:
            lines.append("wheels with warnings of more than one check were left out")
    if not lines:
        lines.append("each check of running passes for some wheel, but for none together")
    return lines


def _strongest(job: Job, found: Found) -> Job:
    """Of those analysed that pass their checks, or else of all."""
    rows = list(zip(found.rows, found.loads_n, found.passes, strict=True))
    good = [one for one in rows if one[2]] or rows
    row = max(good, key=lambda one: one[1])[0]
    return found_job(job, found, row)


def too_weak(job: Job, found: Found, wanted: Wanted, warned: Sequence[str] = ()) -> list[str]:
    """No wheel carries the load and passes: the strongest analysed, and what it could carry."""
    ended = found.analyses >= wanted.analyses
    more = [f"or raise --analyses: the search ended at {found.analyses}"] if ended else []
    if warned:
        more.append(
            "wheels that a check warns of were left out where others had no warning, most by: "
            f"{', '.join(warned)}"
        )
    both = zip(found.rows, found.loads_n, strict=True)
    strong = [row for row, load in both if load >= found.needed_n]
    if strong:
        row = min(strong, key=lambda one: found.cost[one])
        one = found_job(job, found, row)
        failed = [f"{c.title}: {c.says}" for c in job_checks(one) if c.verdict == "fail"]
        return [
            f"of {so_many(found.analyses, 'wheel')} analysed, those that carry the load fail "
            f"another check; the cheapest, of {one.wheel.tread_diameter_mm:g} mm:",
            *failed,
            *more,
        ]
    strongest = max(found.loads_n, default=0.0)
    need = needed_n(job.setting, wanted.reserve)
    share = 100 * strongest / need
    asked = f", {100 * wanted.reserve:g} % of reserve in it" if wanted.reserve else ""
    return [
        f"no wheel bears a mean load of {need:.0f} N with what twist, joints and curves make of it"
        f"{asked}; the strongest analysed bears {strongest:.0f} N, {share:.0f} % of it",
        *eaten(_strongest(job, found)),
        *more,
    ]


def eaten(job: Job) -> list[str]:
    """A line on what limits the job's wheel, and where its life goes; none where it cannot be
    rated."""
    found = assess(job.setting)
    if found is None:
        return []
    limit = found.least.governs
    told = f"the strongest is limited by {limit.name}: {limit.where}"
    if not found.by_block:
        return [told]
    most = max(found.by_block, key=lambda one: one.damage + one.joints)
    whole = sum(one.damage + one.joints for one in found.by_block) or 1.0
    need = job.use.km_per_year * job.use.years
    return [
        f"{told}; it lasts {min(found.life_km, 1e9):.0f} km of {need:.0f}, and "
        f"{100 * (most.damage + most.joints) / whole:.0f} % of the harm comes from the "
        f"{most.where}, {most.state}"
    ]
