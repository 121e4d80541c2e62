"""A job's own factors: silent where there are none, a warning where they are lower."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.own_factors import (
    CHECKS,
    own_lateral,
    own_shock,
    own_unevenness,
)
from platewheel.parts.loads.wheel_load import curving_shares, load_unevenness, shock_factor
from tests.parts.loads.test_twist import rough


def test_nothing_is_said_of_what_the_job_leaves_out() -> None:
    assert [check(rough()) for check in CHECKS] == [None, None, None]


@pytest.mark.parametrize(
    ("check", "key", "worked_out"),
    [
        (own_unevenness, "load_unevenness", load_unevenness(rough())),
        (own_shock, "shock_factor", shock_factor(rough())),
        (own_lateral, "lateral_share", curving_shares(rough(), 10.0)[0]),
    ],
)
def test_lower_than_worked_out_warns_and_tells_both(
    check: object, key: str, worked_out: float
) -> None:
    """Rounded to two decimals is not lower; the speed's own part is on top of both pushes."""
    assert callable(check)
    for given, verdict in ((worked_out - 0.004, "pass"), (worked_out - 0.006, "warn")):
        result = check(rough(**{key: given}))
        assert result.verdict == verdict
        assert f"{worked_out:.2f}" in result.says
    low = check(rough(**{key: worked_out - 0.05}))
    assert f"{worked_out - 0.05:g} stands in the job" in low.says


def test_the_impact_is_on_the_wheel_as_heavy_as_it_is() -> None:
    """An unevenness of the job's own does not count for the shock that is worked out."""
    both = rough(load_unevenness=1.0, shock_factor=1.0)
    result = own_shock(both)
    assert result is not None
    assert result.limit == pytest.approx(shock_factor(rough()) - 0.005)
