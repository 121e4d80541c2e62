"""A disc welded on both sides closes the gap beside it: what the zinc bath says to that."""

from __future__ import annotations

from platewheel.parts.checks.galvanizing.hollows import closed_hollows, sealed_hollow
from platewheel.parts.checks.result import CheckResult
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import plain_wheel


def judged(**wheel: object) -> CheckResult:
    found = sealed_hollow(setting_of(wheel=dict(wheel)))
    assert found is not None
    return found


def test_the_gaps_beside_the_disc_are_sealed() -> None:
    """0.5 mm of clearance beside a disc of 6 mm, at the ring and at the tube."""
    sealed = [h for h in closed_hollows(plain_wheel(first_disc_both_sides=True)) if not h.vented]
    assert len(sealed) == 2
    assert all(hollow.volume_mm3 < 3000 for hollow in sealed)


def test_the_verdict_names_the_key_and_heeding_it_passes() -> None:
    found = judged(first_disc_both_sides=True)
    assert found.verdict == "fail"
    assert "first_disc_both_sides = false" in found.says
    assert "vent_count" not in found.says
    assert judged(first_disc_both_sides=False).verdict == "pass"
    # without vents the box itself is sealed, which the key does not help
    assert "vent_count = 2" in judged(first_disc_both_sides=True, vent_count=0).says


def test_a_painted_wheel_may_have_them() -> None:
    assert (
        sealed_hollow(setting_of(wheel={"first_disc_both_sides": True}, coating="painted")) is None
    )
