"""The time plan: counts and rates by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.cli.job.plan import setup_price
from tests.cli.shop import shop


def test_works_make_the_sum() -> None:
    plan = shop().time
    assert plan.hours == pytest.approx(sum(row.hours for row in plan.works))
    assert plan.hours_per_wheel == pytest.approx(plan.hours / 2)
    for row in plan.works:
        assert row.hours == pytest.approx(row.quantity * row.minutes_each / 60)


def test_counts_of_two_small_wheels() -> None:
    found = shop()
    counts = {row.work: row.quantity for row in found.time.works}
    assert counts["sawing to length"] == 2  # tubes; the treads are cut from plate
    assert counts["rolling rings"] == 2
    assert counts["forming the flange"] == 6
    assert counts["fitting discs and tubes"] == 6  # two discs and a tube each
    assert counts["gauging"] == 1
    edges = sum(
        row.blank.cut_length_mm * n for row, n in zip(found.plan.parts, (1, 2, 3), strict=False)
    )  # type: ignore[union-attr]
    assert counts["deburring"] == pytest.approx(2 * edges / 1000)
    assert found.time.works[0].hours == found.nesting.cutting_hours


def test_a_rate_of_the_job_file_sets_its_row() -> None:
    found = shop({"costs.rolling_minutes": "25", "costs.gauging_minutes": "7"})
    rows = {row.work: row for row in found.time.works}
    assert rows["rolling rings"].hours == pytest.approx(2 * 25 / 60)
    assert rows["gauging"].hours == pytest.approx(7 / 60)


def test_work_that_a_wheel_does_not_need_is_left_out() -> None:
    works = {row.work for row in shop({"finish.coating": '"bare"'}).time.works}
    assert "coating" not in works
    flat = shop({"wheel.flange_angle_deg": "90"})
    assert "forming the flange" not in {row.work for row in flat.time.works}


def test_the_cutter_is_paid_once() -> None:
    own = shop().time.works[0]
    assert own.labour
    hired = shop({"cutting.price_per_h": "60"}).time.works[0]
    assert not hired.labour
    assert math.isclose(own.hours, hired.hours)


def test_grinding_for_strength_is_counted_by_the_metre() -> None:
    """Two wheels of 180: the root ground out and flush, 2 x 180 pi each."""
    assert "grinding root and seams" not in {row.work for row in shop().time.works}
    backed = shop({"wheel.root_backed": "true", "costs.grinding_minutes_per_m": "6"})
    row = next(row for row in backed.time.works if row.work == "grinding root and seams")
    assert row.quantity == pytest.approx(2 * 2 * 0.18 * math.pi, abs=1e-3)
    assert row.hours == pytest.approx(row.quantity * 6 / 60)


def test_setting_up_is_counted_by_the_plate_and_paid_as_the_cutting() -> None:
    """Each plate a quarter of an hour; the machine's price is on both, or labour's."""
    plain, found = shop(), shop({"cutting.setup_minutes": "15", "cutting.price_per_h": "60"})
    plates = found.nesting.sheets_used
    (row,) = [row for row in found.time.works if row.work == "setting up plates"]
    assert (row.quantity, row.minutes_each, row.labour) == (plates, 15, False)
    assert row.hours == found.nesting.setup_hours == plates / 4
    assert found.time.hours == pytest.approx(plain.time.hours + plates / 4)
    hours = found.nesting.cutting_hours + plates / 4
    assert found.nesting.cutting_price == pytest.approx(60 * hours)
    (bought,) = found.bought("cutting")
    assert bought.price == pytest.approx(60 * hours)
    assert f"setting up {plates} plates" in bought.item
    assert "setting up plates" not in {row.work for row in plain.time.works}
    assert [row.labour for row in shop({"cutting.setup_minutes": "15"}).time.works[:2]] == [
        True
    ] * 2


def test_setting_up_is_priced_for_the_plan_by_the_hour_of_cutting_else_of_labour() -> None:
    minutes, labour = {"cutting.setup_minutes": "15"}, {"costs.labour_price_per_h": "24"}
    hired = {"cutting.price_per_h": "60"}
    jobs = (minutes, minutes | labour, minutes | labour | hired, labour | hired)
    assert [setup_price(shop(changes).job) for changes in jobs] == [0, 6, 15, 0]
