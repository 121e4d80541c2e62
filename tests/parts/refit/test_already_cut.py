"""Blanks that were cut before: no plan cuts fewer anew, by trying all of them on small cases."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.parts.refit.already_cut import GRIND_MM, Way
from platewheel.parts.refit.plan import plan_refit
from platewheel.parts.setting.setting import Setting
from tests.parts.refit.test_roundness_border import setting
from tests.parts.refit.test_truing import THIN, rings_of

PLAIN = setting(**THIN, flange_segments=3)  # gaps 0.75 to 1.3 mm
TAPERED = setting(**THIN, tread_taper_1_in=20.0, flange_segments=2)
RINGS = st.lists(st.tuples(st.integers(-40, 40), st.integers(0, 10)), min_size=1, max_size=3)
Need = tuple[frozenset[str], frozenset[str], bool]  # drawn discs for field, gauge; flange


def ways_of(one: Setting, sizes: Sequence[tuple[float, float]], wheels: int) -> list[Way]:
    refit = plan_refit(one, rings_of(sizes), already_cut=wheels)
    ways = [fitted.way for fitted in refit.fitted]
    assert all(way is not None for way in ways)
    return [way for way in ways if way is not None]


def states(one: Setting, mean: float, uneven: float) -> Iterator[Need]:
    """What a ring takes as it is and trued, gap by gap; all by the drawing's own sizes."""
    wheel = one.wheel
    beyond = uneven > 2 * (1.3 - 0.75) + 1e-9  # the border: such a ring is pressed round anyhow
    spread = 0.0 if beyond else uneven / 4
    run = 60 / wheel.tread_taper_1_in if wheel.tread_taper_1_in else 0.0
    inset = {"field": 8 / 60, "gauge": 1 - (8 + 3) / 60}  # smaller end of each disc
    bores = {side: 300 - 2 * (1 - at) * run - 2 * wall_across(one) for side, at in inset.items()}
    drawn = {side: bore - 1.5 for side, bore in bores.items()}
    names = {"disc": drawn["gauge"]} if not run else {f"disc-{s}": d for s, d in drawn.items()}
    most = 0.002 * (300 + mean)
    shifts = [-most, *(k / 100 for k in range(-60, 61) if abs(k / 100) <= most), most]
    for trued, shift in [(False, 0.0), *((True, shift) for shift in shifts)]:
        wobble = 0.0 if trued else spread
        fits = []
        for side in ("field", "gauge"):
            bore = bores[side] + mean + shift
            fits.append(
                frozenset(
                    name
                    for name, disc in names.items()
                    if (bore - disc) / 2 + wobble <= 1.3 + 1e-9
                    and (bore - disc) / 2 + GRIND_MM - wobble >= 0.75 - 1e-9
                )
            )
        seam = 2 + math.pi * (mean + shift) / wheel.flange_segments
        yield fits[0], fits[1], seam <= 4


def wall_across(one: Setting) -> float:
    """The wall of a cone is thicker across the axle."""
    taper = one.wheel.tread_taper_1_in
    return 8 * math.sqrt(1 + 1 / taper**2) if taper else 8.0


def fewest_by_brute_force(one: Setting, sizes: Sequence[tuple[float, float]], wheels: int) -> float:
    """Least number of new pieces: every state of every ring, every hand-out of drawn blanks."""
    segments = one.wheel.flange_segments
    two = bool(one.wheel.tread_taper_1_in)
    left = {"disc-field": wheels, "disc-gauge": wheels} if two else {"disc": 2 * wheels}
    choices = []
    for mean, uneven in sizes:
        found: set[tuple[str | None, str | None, bool]] = set()
        for field, gauge, flange in set(states(one, mean / 10, uneven / 10)):
            found |= set(product([None, *field], [None, *gauge], {False, flange}))
        choices.append(found)
    best = math.inf
    for plan in product(*choices):
        discs = [disc for way in plan for disc in way[:2]]
        if any(discs.count(name) > count for name, count in left.items()):
            continue
        if sum(way[2] for way in plan) > wheels:
            continue
        best = min(best, discs.count(None) + segments * sum(not way[2] for way in plan))
    return best


@pytest.mark.parametrize("one", [PLAIN, TAPERED], ids=["plain", "tapered"])
@given(sizes=RINGS, fewer=st.integers(0, 2))
@settings(max_examples=25)
def test_no_plan_cuts_fewer_anew(
    one: Setting, sizes: list[tuple[float, float]], fewer: int
) -> None:
    wheels = max(1, len(sizes) - fewer)
    ways = ways_of(one, sizes, wheels)
    new = sum(way.new_pieces(one.wheel.flange_segments) for way in ways)
    assert new == fewest_by_brute_force(one, sizes, wheels)
    names = ("disc-field", "disc-gauge") if one is TAPERED else ("disc",)
    for name in names:
        there = wheels if one is TAPERED else 2 * wheels
        assert sum(way.discs.count(name) for way in ways) <= there
    assert sum(way.flange is True for way in ways) <= wheels


@given(sizes=RINGS)
def test_every_gap_is_one_that_the_fillets_bridge(sizes: list[tuple[float, float]]) -> None:
    refit = plan_refit(PLAIN, rings_of(sizes), already_cut=len(sizes))
    for one in refit.fitted:
        for gap in one.disc_gaps_mm:
            assert 0.75 - 0.05 <= gap <= 1.3 + 0.1  # new ones are told to 0.1 mm
        assert 1 - 1e-9 <= one.flange_seam_mm <= 4 + 1e-9
    cut = {part.name: part.count_per_wheel for part in refit.parts}
    new = [name for one in refit.fitted for name in one.discs if name != "disc"]
    assert {name: new.count(name) for name in new} == {
        name: count for name, count in cut.items() if name.startswith("disc")
    }


def test_rings_as_drawn_cut_nothing_anew() -> None:
    refit = plan_refit(PLAIN, rings_of([(0, 0), (3, 0), (1, 2)]), already_cut=3)
    assert refit.parts == ()
    assert all(one.discs == ("disc", "disc") for one in refit.fitted)
    assert all(one.flange == "flange" for one in refit.fitted)
    assert all(one.way is not None and one.way.works == 0 for one in refit.fitted)


def test_what_is_done_to_a_ring_is_no_more_than_it_needs() -> None:
    """By hand: drawn gap 0.75 to 1.3, so rings from 300.0 to 301.1 take the disc. 301.5 is shrunk
    by 0.4 of its 0.603; 299.4 has its two discs ground by 0.3 on the radius, which is less work
    than stretching it by 0.599. 303 takes new discs and, 3.14 / 3 wider at
    each seam, its flange."""
    shrunk, ground, large = ways_of(PLAIN, [(15, 0), (-6, 0), (30, 0)], 3)
    assert (shrunk.discs, shrunk.trued, shrunk.works) == (("disc", "disc"), True, 4)
    assert shrunk.shift_mm == pytest.approx(-0.4)
    assert (ground.discs, ground.trued) == (("disc", "disc"), False)
    assert ground.grind_mm == pytest.approx((0.3, 0.3))
    assert large.discs == (None, None)
    assert large.flange is False or 2 + math.pi * 3 / 3 <= 4
    assert (large.trued, large.works) == (False, 0)


def test_a_small_ring_has_its_flange_trimmed() -> None:
    """2 mm smaller round is 6.28 / 3 less at each seam: gaps closed, so trimmed to the job's 2."""
    (way,) = ways_of(PLAIN, [(-18, 0)], 1)
    assert way.flange is True
    assert way.trim_mm == pytest.approx(math.pi * 1.8 - abs(way.shift_mm) * math.pi)


def test_welded_rings_are_left_as_they_are() -> None:
    (ring,) = rings_of([(15, 0)])
    welded = replace(ring, after_welding_mm=ring.outside_circumference_mm - 1)
    (one,) = plan_refit(PLAIN, [welded], already_cut=1).fitted
    assert one.way is not None
    assert one.way.discs == (None, None)
    assert not one.way.trued
