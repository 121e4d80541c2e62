"""What the load rating says of an assessment: made up here, so that each word has one cause."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.strength.load_rating import rating_results
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.rating.detail import Cycles, Detail
from platewheel.parts.rating.endurance import BlockDamage, Endurance
from platewheel.parts.rating.limit import Limit
from platewheel.parts.rating.rate import Rating
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.settings import setting_of

NEED_N = 10_000.0  # of the setting: no shock, all wheels even
LIFE: dict[str, Any] = {"km_per_year": 400.0, "years": 25.0}  # 10 000 km


def limit(load_n: float, name: str = "static strength", where: str = "disc at the hub") -> Limit:
    return Limit(name, load_n, where, "EN 1993-1-1")


def assessed(
    new: Limit,
    worn: Limit | None,
    *,
    life_km: float = 2e4,
    ends: Limit | None = None,
    payload_kg: float = 800.9,
    by_block: tuple[BlockDamage, ...] = (),
) -> Assessment:
    ratings = [Rating((one,), 0.0) if one else None for one in (new, worn)]
    assert ratings[0] is not None
    crack = ends and crack_at(ends)
    response: Any = np.zeros(1)  # not asked by what is told here
    return Assessment(ratings[0], ratings[1], response, life_km, crack, payload_kg, by_block)


def crack_at(ends: Limit) -> Endurance:
    """Where the first crack comes; how much, is not asked here."""
    nothing = np.zeros((1, 1, 1))
    detail = Detail(ends.name, ends.where, 36.0, nothing, nothing[0])
    cycles = Cycles(nothing[0], nothing[0, 0], np.zeros(1, int), np.zeros(1, bool))
    return Endurance(detail, cycles, 1.0, 1.0)


def results(found: Assessment | None, setting: Setting | None = None) -> dict[str, CheckResult]:
    made = rating_results(setting or setting_of(NEED_N, use=LIFE), found)
    return {result.id: result for result in made}


def test_without_an_analysis_nothing_is_judged() -> None:
    (result,) = rating_results(setting_of(), None)
    assert (result.id, result.verdict, result.value, result.limit) == (
        ("rating-new", "not-assessed", None, None)
    )
    assert result.says.endswith("run without --quick")
    assert result.source.endswith("not run")


def test_a_wheel_that_falls_apart_carries_nothing() -> None:
    """A disc flush with its ring's edge has no room for its fillet."""
    (result,) = rating_results(setting_of(wheel={"disc_field_inset_mm": 0.0}), None)
    assert (result.verdict, result.value, result.margin) == ("fail", 0.0, -1.0)
    assert result.limit == pytest.approx(NEED_N)
    assert "no room for the rim bead of the field disc" in result.says


def test_new_and_worn_turn_at_the_load_asked() -> None:
    for new, worn in ((NEED_N + 0.1, NEED_N - 0.1), (NEED_N - 0.1, NEED_N + 0.1)):
        told = results(assessed(limit(new), limit(worn)))
        for id, load in (("rating-new", new), ("rating-worn", worn)):
            assert told[id].value == load
            assert told[id].limit == pytest.approx(NEED_N)
            assert told[id].verdict == ("pass" if load > NEED_N else "fail")
    good = results(assessed(limit(2e4), limit(2e4)))["rating-new"]
    assert good.says == "static strength: disc at the hub"
    assert good.source.endswith("limit: EN 1993-1-1")
    assert good.margin == pytest.approx(1)


@pytest.mark.parametrize(
    ("load", "short"),
    [(9_999.0, "less than 1 % short"), (9_900.0, "1 % short"), (9_901.0, "less than 1 % short"),
     (5_000.0, "50 % short"), (6_260.0, "37 % short")],
)  # fmt: skip
def test_how_much_is_short_is_told(load: float, short: str) -> None:
    result = results(assessed(limit(load), limit(2e4)))["rating-new"]
    assert result.says == (
        f"static strength: disc at the hub; {short}: it carries wagon.payload_kg = 800"
    )


def test_the_place_that_ends_the_life_is_told() -> None:
    ends = limit(1.0, "weld toes", "toe")
    told = results(assessed(limit(2e4), limit(2e4), life_km=50.0, ends=ends))
    assert told["life"].says == (
        "first the weld toes: toe, after 50 km: it carries wagon.payload_kg = 800"
    )


def test_a_second_reading_is_told_beside() -> None:
    """Lower than the rating and not judged: told; higher: not."""
    second = replace(limit(3e3, "weld roots, full range", "rim"), judged=False)
    for load, told in ((3e3, True), (3e4, False)):
        found = assessed(limit(2e4), limit(2e4))
        found = replace(
            found, new=Rating(tuple(sorted((replace(second, load_n=load), limit(2e4)),
                                           key=lambda one: one.load_n)), 0.0)
        )  # fmt: skip
        says = results(found)["rating-new"].says
        assert ("weld roots, full range, told beside: 3000 N" in says) == told
        assert results(found)["rating-new"].value == 2e4


def test_an_empty_wagon_that_is_too_heavy_is_told() -> None:
    for payload, says in ((-0.1, "not even the empty wagon"), (0.0, "payload_kg = 0")):
        told = results(assessed(limit(5e3), limit(5e3), life_km=5.0, payload_kg=payload))
        for id in ("rating-new", "rating-worn", "life"):
            assert says in told[id].says


def test_wear_beyond_half_of_wall_or_bead_is_not_rated() -> None:
    """Ring of 8 mm, root bead of 5: 2.5 mm at most."""
    setting = setting_of(NEED_N, use=LIFE | {"wear_allowance_mm": 3.5})
    told = results(assessed(limit(2e4), None), setting)["rating-worn"]
    assert (told.verdict, told.value, told.margin) == ("fail", 0.0, -1.0)
    assert told.limit == pytest.approx(NEED_N)
    assert told.says.startswith("use.wear_allowance_mm = 3.5 leaves less than half")
    assert told.says.endswith("at most 2.5 mm")


def test_life_turns_at_the_stated_distance() -> None:
    """400 km a year for 25 years."""
    weld = limit(1.0, "weld toes", "rim bead")
    for km, verdict in ((1e4 + 0.1, "pass"), (1e4 - 0.1, "fail")):
        told = results(assessed(limit(2e4), limit(2e4), life_km=km, ends=weld))["life"]
        assert (told.verdict, told.value, told.limit) == (verdict, km, 1e4)
        assert "first the weld toes: rim bead" in told.says
    assert results(assessed(limit(2e4), limit(2e4), life_km=12_345.4, ends=weld))["life"].says == (
        "12345 km: first the weld toes: rim bead"
    )


def test_an_endless_life_is_told_as_more_than_a_number() -> None:
    told = results(assessed(limit(2e4), limit(2e4), life_km=math.inf))["life"]
    assert told.value == 1e9
    assert told.says == "more than 1000000000 km: nothing is stressed"


def test_what_eats_the_life_is_named() -> None:
    """Of three kinds of turn and their joints the one with most: or the joints."""
    curve = BlockDamage("curve of 7 m", "loaded", 1e5, 2e3, 9e2, 0.5, 0.1)
    straight = BlockDamage("straight", "loaded", 3e5, 2e3, 0.0, 0.2, 0.2)
    ends = limit(1.0, "weld roots", "rim bead of the gauge disc")
    for km, blocks, words in (
        (5e3, (straight, curve), "50 % of it from the curve of 7 m, loaded"),
        (5e3, (replace(straight, joints=1.0), curve), "61 % of it from rail joints"),
    ):
        found = assessed(limit(2e4), limit(2e4), life_km=km, ends=ends, by_block=blocks)
        assert words in results(found)["life"].says
    found = assessed(limit(2e4), limit(2e4), life_km=2e4, ends=ends, by_block=(curve,))
    assert results(found)["life"].says.endswith("; 83 % of it from the curve of 7 m, loaded")
