"""A refit thought through: which blank each ring gets, which wheels share an axle and a wagon."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from platewheel.parts.making.ring_roundness import (
    RoundnessLimit,
    disc_gap_range_mm,
    roundness_limit,
)
from platewheel.parts.refit.already_cut import FLANGE, Way, fewest_new, gaps_mm
from platewheel.parts.refit.measured_ring import MeasuredRing, ring_spec
from platewheel.parts.refit.pairing import Pairing, pair_wheels
from platewheel.parts.refit.ring_windows import left_uneven_mm
from platewheel.parts.refit.shared_blanks import (
    disc_of_size,
    disc_window,
    fewest_sizes,
    flange_of_size,
    flange_seam_on_mm,
    flange_window,
    shared_disc,
    shared_flange,
)
from platewheel.parts.refit.tried_flange import TriedFlange, mean_error_mm, tried_flange
from platewheel.parts.refit.welded_wheel import running_diameters_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.flange import flange_cone
from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_diameter_mm, hub_disc
from platewheel.parts.wheel.own_disc import own_disc
from platewheel.parts.wheel.part import Part
from platewheel.parts.wheel.spec import WheelSpec


@dataclass(frozen=True)
class Shared:
    """A blank that several rings share: `size_mm` is the disc's diameter, or the tread that the
    flange is cut for; `part` has it with the count for all rings."""

    size_mm: float
    part: Part
    rings: tuple[str, ...]


@dataclass(frozen=True)
class Fitted:
    """A ring, the wheel that it makes, and its blanks: discs by side, and the flange's, which is
    None where the flange that was tried on stays."""

    measured: MeasuredRing
    spec: WheelSpec
    discs: tuple[str, str]
    disc_gaps_mm: tuple[float, float]
    flange: str | None
    flange_seam_mm: float
    tried: TriedFlange | None
    way: Way | None = None  # to blanks that were cut before; None where all are cut now


@dataclass(frozen=True)
class Refit:
    """All of a refit; `pairing` counts in `fitted`, which is in the order listed."""

    fitted: tuple[Fitted, ...]
    discs: tuple[Shared, ...]
    flanges: tuple[Shared, ...]
    pairing: Pairing
    disc_gap_range_mm: tuple[float, float]
    roundness: RoundnessLimit
    diameters_mm: tuple[float, ...]  # that wheels are paired by, in the order listed
    after_welding: bool  # those of the welded wheels
    corrected: bool  # for what the flanges tried on were out
    flanges_longer_mm: float  # all round, put into the new blanks
    already_cut: bool = False  # the drawn blanks are there: only what fits no ring is cut

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every blank to cut, as the parts of one large wheel."""
        return tuple(shared.part for shared in (*self.discs, *self.flanges))

    @property
    def own_sizes(self) -> int:
        """Different blanks if every ring had its own, told to 0.1 mm."""
        discs = {
            round(disc_diameter_mm(one.spec, side), 1) for one in self.fitted for side in SIDES
        }
        kept = [one for one in self.fitted if one.flange is not None]
        return len(discs) + len({round(one.spec.tread_diameter_mm, 1) for one in kept})


def plan_refit(
    setting: Setting,
    rings: Sequence[MeasuredRing],
    correct_flanges: bool = False,
    already_cut: int = 0,
) -> Refit:
    """Blanks and pairs for rings that `ring_faults` found good.

    `correct_flanges` makes the new flange blanks longer or shorter by what the flanges tried on
    were out in the mean, apart from their rings' own size. `already_cut`: the drawn blanks of so
    many wheels are there, and as few as can be are cut anew (`fewest_new`).

    Raises: SpecError where a shared size makes no wheel.
    """
    wheel = setting.wheel
    specs = [ring_spec(wheel, ring) for ring in rings]
    tried = [
        None if ring.flange_seam_mm is None else tried_flange(wheel, spec, ring.flange_seam_mm)
        for ring, spec in zip(rings, specs, strict=True)
    ]
    ways: Sequence[Way | None] = [None] * len(rings)
    if already_cut:
        ways = fewest_new(setting, rings, specs, tried, already_cut)
    discs, disc_of, disc_sizes = _discs(setting, rings, specs, ways)
    wants = [
        i
        for i, (flange, way) in enumerate(zip(tried, ways, strict=True))
        if (flange is None or flange.remedy == "insert" if way is None else way.flange is False)
    ]
    longer = mean_error_mm([flange for flange in tried if flange]) if correct_flanges else 0.0
    flanges, flange_of = _flanges(
        [rings[i] for i in wants],
        [_as_trued(specs[i], ways[i]) for i in wants],
        longer / wheel.flange_segments,
    )
    fitted = []
    for i, (ring, spec, way) in enumerate(zip(rings, specs, ways, strict=True)):
        mine = flange_of.get(ring.ring)
        kept = tried[i]
        after = _as_trued(spec, way)
        seam = kept.root_gap_mm if mine is None and kept else 0.0
        name = mine.part.name if mine else None
        if mine is not None:
            seam = flange_seam_on_mm(after, mine.size_mm)
        elif way is not None and way.flange:
            name, on = FLANGE, flange_seam_on_mm(after, wheel.tread_diameter_mm)
            seam = wheel.seam_gap_mm if way.trim_mm else on
        drawn_gaps = (None, None) if way is None else gaps_mm(setting, spec, way)
        gaps = [
            after.fit_clearance_mm + (disc_diameter_mm(after, side) - disc_sizes[i, side]) / 2
            if gap is None
            else gap
            for side, gap in zip(SIDES, drawn_gaps, strict=True)
        ]
        fitted.append(
            Fitted(
                ring,
                spec,
                (disc_of[i, "field"], disc_of[i, "gauge"]),
                (gaps[0], gaps[1]),
                name,
                seam,
                kept,
                way,
            )
        )
    diameters, after_welding = running_diameters_mm(rings)
    return Refit(
        tuple(fitted),
        discs,
        flanges,
        pair_wheels(diameters),
        disc_gap_range_mm(setting),
        roundness_limit(setting),
        diameters,
        after_welding,
        correct_flanges,
        longer,
        bool(already_cut),
    )


def _as_trued(spec: WheelSpec, way: Way | None) -> WheelSpec:
    """The wheel of a ring once it is resized."""
    if way is None or not way.shift_mm:
        return spec
    return flange_of_size(spec, spec.tread_diameter_mm + way.shift_mm)


def _discs(
    setting: Setting,
    rings: Sequence[MeasuredRing],
    specs: Sequence[WheelSpec],
    ways: Sequence[Way | None],
) -> tuple[tuple[Shared, ...], dict[tuple[int, Side], str], dict[tuple[int, Side], float]]:
    """Both discs of every ring from one pool: a field disc may be another ring's gauge disc. Those
    that were cut before keep their names."""
    gaps = disc_gap_range_mm(setting)
    names: dict[tuple[int, Side], str] = {}
    places: list[tuple[int, Side]] = []
    windows = []
    for i, (ring, spec, way) in enumerate(zip(rings, specs, ways, strict=True)):
        uneven = 0.0 if way is not None and way.trued else left_uneven_mm(setting, ring)
        for k, side in enumerate(SIDES):
            there = None if way is None else way.discs[k]
            if there is not None:
                names[i, side] = there
                continue
            places.append((i, side))
            windows.append(disc_window(_as_trued(spec, way), side, gaps, uneven))
    sizes, chosen = fewest_sizes(windows)
    made = []
    for number, size in enumerate(sizes):
        users = [place for place, k in zip(places, chosen, strict=True) if k == number]
        first, side = users[0]
        name = f"disc-{number + 1}"
        blank = shared_disc(specs[first], side, size, name, setting.disc)
        fitted = disc_of_size(specs[first], side, size)
        solid = partial(own_disc, fitted, blank) if setting.disc else partial(hub_disc, fitted)
        part = Part(name, len(users), blank.volume_mm3, partial(solid, side), blank)
        made.append(Shared(size, part, tuple(dict.fromkeys(rings[i].ring for i, _ in users))))
    names |= {place: f"disc-{k + 1}" for place, k in zip(places, chosen, strict=True)}
    size_of = {place: sizes[k] for place, k in zip(places, chosen, strict=True)}
    return tuple(made), names, size_of


def _flanges(
    rings: Sequence[MeasuredRing], specs: Sequence[WheelSpec], longer_mm: float
) -> tuple[tuple[Shared, ...], dict[str, Shared]]:
    sizes, chosen = fewest_sizes([flange_window(spec) for spec in specs])
    made = []
    for number, size in enumerate(sizes):
        users = [i for i, k in enumerate(chosen) if k == number]
        spec = specs[users[0]]
        name = f"flange-{number + 1}"
        blank = shared_flange(spec, size, name, longer_mm)
        solid = partial(flange_cone, flange_of_size(spec, size))
        count = spec.flange_segments * len(users)
        part = Part(name, count, blank.volume_mm3, solid, blank)
        made.append(Shared(size, part, tuple(rings[i].ring for i in users)))
    return tuple(made), {r.ring: made[k] for r, k in zip(rings, chosen, strict=True)}
