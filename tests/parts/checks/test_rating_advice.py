"""What is advised where a rating fails: found by trying, and only told where it does."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from types import SimpleNamespace
from typing import Any

import pytest

from platewheel.parts.checks import rating_advice
from platewheel.parts.checks.rating_advice import changes, what_does, with_advice
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import run_checks
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.rating.assess import assess
from platewheel.parts.setting.setting import Setting
from tests.parts.settings import demo_setting

DEMO = demo_setting()
RIM = "rim bead of the gauge disc"


def result(id: str, verdict: Any) -> CheckResult:
    return CheckResult(id, id, 1.0, 1.0, "", verdict, "says", "source", -0.1)


LOW = [result("rating-new", "fail"), result("life", "fail"), result("play-least", "pass")]


def sound(setting: Setting, found: Any) -> list[CheckResult]:
    return []


def by_wall(setting: Setting) -> dict[tuple[str, str], float]:
    """A stand-in: the ring's seam by its wall, the rim bead by its throat."""
    wheel = setting.wheel
    return {
        ("ring seam", "ring"): wheel.tread_thickness_mm / 10,
        ("weld roots", RIM): wheel.weld_throat_mm / 4.4,
    }


@pytest.fixture(autouse=True)
def stand_in(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rating_advice, "_coarse", by_wall)

    def rated(setting: Setting) -> Any:
        share = min(by_wall(setting).values())
        return SimpleNamespace(least=SimpleNamespace(load_n=share * wheel_load_n(setting)))

    monkeypatch.setattr(rating_advice, "assess", rated)


def test_limit_after_limit_is_raised() -> None:
    """Wall 8 is 0.8, throat 4 is 0.91 of what is needed: 12 mm of wall, 5 of throat."""
    dressed = replace(DEMO, wheel=DEMO.wheel.model_copy(update={"seam": "dressed"}))
    does = what_does(dressed, LOW, sound)
    assert "tread_thickness_mm = 12" in does
    assert "weld_throat_mm = 5" in does
    assert "disc_thickness_mm = 8" in does  # 5 / 0.7


def test_no_change_may_fail_another_check() -> None:
    def rolls(setting: Setting, found: Any) -> list[CheckResult]:
        thick = setting.wheel.tread_thickness_mm > 8
        return [result("roll-thickness", "fail" if thick else "pass")]

    assert what_does(DEMO, LOW, rolls) == ""
    already = [*LOW, result("roll-thickness", "fail")]
    assert "tread_thickness_mm = 12" in what_does(DEMO, already, rolls)


def test_what_the_full_rating_does_not_confirm_is_not_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    weak = SimpleNamespace(least=SimpleNamespace(load_n=1.0))
    monkeypatch.setattr(rating_advice, "assess", lambda setting: weak)
    assert what_does(DEMO, LOW, sound) == ""


def test_it_stands_behind_what_fails() -> None:
    found: Any = object()
    told = with_advice(LOW, DEMO, found, sound)
    assert [one.says.startswith("says; this would do: ") for one in told] == [True, True, False]
    passing = [result("rating-new", "pass"), result("play-least", "fail")]
    assert with_advice(passing, DEMO, found, sound) == passing
    assert with_advice(LOW, DEMO, None, sound) == LOW


@pytest.mark.parametrize(
    ("limit", "where", "key", "first"),
    [
        ("ring seam", "ring", "seam", "dressed"),
        ("static strength", "tread", "tread_thickness_mm", 10.0),
        ("vent holes", "vent", "vent_diameter_mm", 12.0),
        ("weld toes", "toe", "disc_thickness_mm", 8.0),
        ("flange stiffness", "tip", "flange_thickness_mm", 10.0),
        ("contact pressure", "tread", "tread_diameter_mm", 330.0),
        ("opened weld roots", "bead between ring and flange", "root_weld_mm", 9.0),
        ("weld throats", RIM, "weld_throat_mm", 4.5),
    ],
)
def test_the_smallest_change_comes_first(limit: str, where: str, key: str, first: Any) -> None:
    wheel = DEMO.wheel.model_copy(update={"seam": "as-welded"})
    found = list(changes(wheel, limit, where))
    assert found[0][key] == first
    assert len(found) >= 3


def test_where_nothing_does_it_says_where_to_look() -> None:
    def never(setting: Setting, found: Any) -> list[CheckResult]:
        return [result("roll-thickness", "fail" if setting is not DEMO else "pass")]

    found: Any = object()
    told = with_advice(LOW, DEMO, found, never)
    assert [one.says.endswith("looks for another wheel") for one in told] == [True, True, False]


def test_thicker_beads_leave_a_set_screw_its_room() -> None:
    """A leg of 6 mm more or less on both sides: the tube grows by it, or stays where it may."""
    short = DEMO.wheel.model_copy(update={"weld_throat_mm": 3.0, "hub_tube_length_mm": 64.0})
    lengths = [one["hub_tube_length_mm"] for one in changes(short, "weld roots", RIM)]
    assert any(longer == 64 + 2 * (6 - 4) for longer in lengths)  # 4 x sqrt 2 less 3 x sqrt 2


def test_plates_that_take_the_leg_come_before_a_larger_one() -> None:
    """A leg of 8 on a flange of 6 fills 6 of it; the dealer has 8, and no 9 for a leg of 9."""
    wheel = DEMO.wheel.model_copy(update={"root_weld_mm": 8.0, "flange_thickness_mm": 6.0})
    first, second, *_ = changes(wheel, "opened weld roots", rating_advice.ROOT_BEAD)
    assert (first["root_weld_mm"], first["flange_thickness_mm"]) == (8.0, 8.0)
    assert (second["root_weld_mm"], second["flange_thickness_mm"]) == (9.0, 10.0)


def test_what_coarse_cells_nearly_pass_is_rated_in_full(monkeypatch: pytest.MonkeyPatch) -> None:
    """They rate some percent low: a wheel at which no step gains may do all the same."""
    monkeypatch.setattr(
        rating_advice,
        "_coarse",
        lambda setting: {("ring seam", "ring"): 0.9 if setting.wheel.seam != "dressed" else 0.98},
    )
    plain = DEMO.wheel.model_copy(update={"seam": "as-welded"})
    good = SimpleNamespace(least=SimpleNamespace(load_n=1e9))
    monkeypatch.setattr(rating_advice, "assess", lambda setting: good)
    assert what_does(replace(DEMO, wheel=plain), LOW, sound) == 'wheel.seam = "dressed"'


def test_followed_on_a_real_wheel(monkeypatch: pytest.MonkeyPatch) -> None:
    """The demo run three times as far: what is told is rated in full, and passes."""
    monkeypatch.undo()
    monkeypatch.setattr(rating_advice, "COARSE_MM", 12.0)
    coarse = partial(assess, size_mm=8.0)
    monkeypatch.setattr(rating_advice, "assess", coarse)
    far = replace(
        DEMO,
        use=DEMO.use.model_copy(update={"km_per_year": 1000.0}),
        shop=DEMO.shop.model_copy(update={"roll_most_thickness_mm": 20.0}),
    )
    found = coarse(far)
    assert found is not None
    told = with_advice(run_checks(far, found), far, found, run_checks)
    says = next(one.says for one in told if one.id == "life")
    does = says.split("this would do: ")[1]
    keys = {
        part.split(" = ")[0].removeprefix("wheel."): part.split(" = ")[1]
        for part in does.split(", ")
    }
    wheel = far.wheel.model_dump() | {
        key: value.strip('"') if '"' in value else float(value) for key, value in keys.items()
    }
    better = replace(far, wheel=type(far.wheel)(**wheel))
    again = {one.id: one.verdict for one in run_checks(better, coarse(better))}
    assert "fail" not in again.values()
