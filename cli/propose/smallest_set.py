"""Where no wheel passes: the smallest change of one key, or of two together, with which one does.

Each set that is told was proved: a wheel was found on the changed job, rated in full, meets every
check with the reserve, and goes on the stock. Work is counted, never timed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import combinations

from platewheel.cli.job.job import Job
from platewheel.cli.propose.finalists import finalist
from platewheel.cli.propose.own_wheel import titles
from platewheel.cli.propose.played import with_play
from platewheel.cli.propose.wanted import Wanted, asked_checks, job_choices
from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.let_in import thickness
from platewheel.parts.propose.line_changes import (
    LineChange,
    Value,
    fewer,
    line_changes,
    with_change,
)
from platewheel.parts.propose.rate_until_known import needed_n
from platewheel.parts.propose.screening import Wheels
from platewheel.parts.propose.sifting import sifted, sifted_at_last
from platewheel.parts.propose.strength_sizes import COARSE_ENOUGH, coarse_limits
from platewheel.parts.wheel.spec import WheelSpec

MOST_RATED, MOST_PROVED = 36, 6  # coarse analyses and full ratings of one search
MOST_TOLD = 2  # sets of one key
MOST_PAIRS = 6  # rated
Picks = tuple[tuple[LineChange, int], ...]  # changes, each with the place of its value


@dataclass
class Search:
    """What was asked so far; `share` is how much of the load a set's strongest wheel bears."""

    job: Job
    wanted: Wanted
    pool: Executor
    screened: int = 0
    rated: int = 0
    proved: int = 0
    strongest: dict[Picks, Job | None] = field(default_factory=dict)
    shares: dict[Picks, float] = field(default_factory=dict)

    def runs(self, picks: Picks) -> bool:
        """Whether any wheel passes the closed forms with these changes."""
        self.screen([picks])
        return self.strongest[picks] is not None

    def screen(self, sets: Sequence[Picks]) -> None:
        """Several sets side by side."""
        new = [picks for picks in sets if picks not in self.strongest]
        self.screened += len(new)
        ask = partial(thickest, self.job, self.wanted)
        self.strongest |= zip(new, self.pool.map(ask, new), strict=True)

    def share(self, picks: Picks) -> float:
        """Mean load that the strongest wheel bears by a coarse analysis, of what it must; 0 where
        none runs, or where the analyses are used up."""
        if not self.runs(picks):
            return 0.0
        if picks not in self.shares:
            if self.rated >= MOST_RATED:
                return 0.0
            self.rate([picks])
        return self.shares[picks]

    def rate(self, sets: Sequence[Picks]) -> None:
        """Coarse analyses of several sets side by side, as many as are left."""
        new = [one for one in sets if one not in self.shares and self.runs(one)]
        new = new[: MOST_RATED - self.rated]
        ones = [self.strongest[picks] for picks in new]
        settings = [one.setting for one in ones if one is not None]
        self.rated += len(settings)
        for picks, setting, limits in zip(
            new, settings, self.pool.map(coarse_limits, settings), strict=True
        ):
            need = needed_n(setting, self.wanted.reserve)
            self.shares[picks] = min(limits.values(), default=0.0) / need

    def proof(self, picks: Picks) -> ProposalRow | None:
        """A wheel of the changed job that passes in full: one with the fewest warnings, or else
        the strongest."""
        if not self.runs(picks):
            return None
        clean = self.pool.submit(thickest, self.job, self.wanted, picks, True).result()
        strong = self.strongest[picks]
        for one in (clean, None if strong == clean else strong):
            if one is None or self.proved >= MOST_PROVED:
                continue
            self.proved += 1
            judged = self.pool.submit(finalist, one, 0.0, self.wanted.reserve).result()
            if not isinstance(judged, str):
                return judged
        return None

    @property
    def ended(self) -> str:
        """How far it looked, in words."""
        limit = self.rated >= MOST_RATED or self.proved >= MOST_PROVED
        return (
            f"{'the search ended at' if limit else 'looked for with'} {self.screened} screenings "
            f"of a coarser grid of wheels, {self.rated} coarse analyses and {self.proved} ratings "
            "in full"
        )


def thickest(job: Job, wanted: Wanted, picks: Picks, cleanly: bool = False) -> Job | None:
    """The changed job with the thickest wheel that passes the closed forms; None where none does.
    `cleanly`: that no check warns of, or where there is none that one check alone warns of."""
    try:
        one = changed(job, picks)
    except SpecError:
        return None
    choices, checks = fewer(job_choices(one, wanted)), asked_checks(one)
    if cleanly:
        return _thickest_of(one, sifted_at_last(one.setting, choices, checks).wheels)
    own_play = replace(choices, play=choices.play[:1])
    wheels = sifted(one.setting, own_play, checks).wheels
    if not wheels.count:  # another play may do, and what checks only warn of may be used
        names = {check.__name__ for check in checks}
        wheels = sifted(one.setting, choices, checks, allowed=names).wheels
    return _thickest_of(one, wheels)


def _thickest_of(one: Job, wheels: Wheels) -> Job | None:
    if not wheels.count:
        return None
    row = max(range(wheels.count), key=lambda row: thickness(wheels, row))
    try:
        return with_play(one, WheelSpec(**wheels.values(row)), wheels.play_mm(row))
    except SpecError:
        return None


def changed(job: Job, picks: Picks) -> Job:
    """The job with the changes. Raises: SpecError where they do not go together."""
    setting = job.setting
    for change, at in picks:
        setting = with_change(setting, change.key, change.values[at])
    return replace(
        job,
        track=setting.track,
        wagon=setting.wagon,
        use=setting.use,
        wheel=setting.wheel,
        axle=setting.axle,
    )


def smallest_sets(job: Job, wanted: Wanted, pool: Executor) -> list[str]:
    """Lines for one-key sets that do, or else for one of two keys; and what was not found."""
    search = Search(job, wanted, pool)
    keys = line_changes(job.setting, job.has_axle)
    far: list[Picks] = [((one, len(one.values) - 1),) for one in keys]
    search.screen(far)
    open_ = [picks for picks in far if search.runs(picks)]
    search.rate(open_)
    lines: list[str] = []
    enough = [picks for picks in open_ if search.share(picks) >= COARSE_ENOUGH]
    for picks in sorted((_reduced(search, picks) for picks in enough), key=_size):
        if len(lines) == MOST_TOLD:
            break
        if (found := _proved(search, picks)) is not None:
            lines.append(f"this would do: {_told(*found)}")
    if not lines:
        lines = [f"these together would do: {_told(*found)}" for found in _pairs(search, far)][:1]
    if not lines:
        tried = ", ".join(f"{one.key} to {_shown(one.values[-1])}" for one in keys)
        lines.append(f"no change of one key or two that was tried does, as far as {tried}")
    return [*lines, search.ended]


def _pairs(search: Search, far: Sequence[Picks]) -> Iterator[tuple[Picks, ProposalRow]]:
    """Pairs that do, those that promise most first; each key as little changed as it may be."""
    pairs = [(*one, *other) for one, other in combinations(far, 2)]
    rated: dict[Picks, float] = {p: share for p, share in search.shares.items() if len(p) == 1}
    if rated:  # where one key lets wheels run, another must make them strong: these shares multiply
        pairs.sort(key=lambda pair: -_promise(pair, rated))
        search.screen(pairs[: 3 * MOST_PAIRS])
        runs = [pair for pair in pairs[: 3 * MOST_PAIRS] if search.runs(pair)]
    else:
        search.screen(pairs)
        runs = sorted((pair for pair in pairs if search.runs(pair)), key=_size)
    search.rate(runs[:MOST_PAIRS])
    for pair in runs[:MOST_PAIRS]:
        if search.share(pair) >= COARSE_ENOUGH:
            found = _proved(search, _reduced(search, pair))
            if found is not None:
                yield found


def _promise(pair: Picks, rated: dict[Picks, float]) -> float:
    return max(rated.get((pair[0],), 0.0), rated.get((pair[1],), 0.0)) + 0.1 * (
        min(rated.get((pair[0],), 0.0), rated.get((pair[1],), 0.0))
    )


def _reduced(search: Search, picks: Picks) -> Picks:
    """Each key in turn taken back to the least value with which a wheel still runs and bears
    enough, the others kept."""
    for k, (change, most) in enumerate(picks):
        low, high = 0, most
        while low < high:  # what is beyond a value that does, does
            middle = (low + high) // 2
            there = (*picks[:k], (change, middle), *picks[k + 1 :])
            low, high = (
                (low, middle) if search.share(there) >= COARSE_ENOUGH else (middle + 1, high)
            )
        picks = (*picks[:k], (change, high), *picks[k + 1 :])
    return picks


def _proved(search: Search, picks: Picks) -> tuple[Picks, ProposalRow] | None:
    """The set with its wheel where a full rating confirms it, or with its first key changed by
    one value more."""
    one = search.proof(picks)
    if one is not None:
        return picks, one
    (change, at), *others = picks
    if at + 1 < len(change.values):
        more = ((change, at + 1), *others)
        if search.runs(more) and (one := search.proof(more)) is not None:
            return more, one
    return None


def _size(picks: Picks) -> float:
    return sum(change.size(change.values[at]) for change, at in picks)


def _told(picks: Picks, row: ProposalRow) -> str:
    keys = " and ".join(change.told(change.values[at]) for change, at in picks)
    w, warned = row.wheel, ", ".join(sorted(titles(row)))
    return (
        f"{keys}, proved with a wheel of {w['tread_diameter_mm']:g} mm, {w['tread_from']} "
        f"{w['tread_width_mm']:g} x {w['tread_thickness_mm']:g}, and {row.play_mm:.1f} mm of play"
        + (f"; checks that warn of it: {warned}" if warned else "")
    )


def _shown(value: Value) -> str:
    return value if isinstance(value, str) else f"{value:g}"
