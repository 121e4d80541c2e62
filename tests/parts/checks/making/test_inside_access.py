"""Does a torch reach the inner fillets of the disc that is set first?"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from platewheel.parts.checks.making.weld_access import inside_access, inside_nozzle_mm
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import plain_wheel


def nozzle_by_turning(bore: float, tube: float, depth_ring: float, depth_tube: float) -> float:
    """Widest strip at 45 degrees from either corner that passes the edge opposite: points of the
    strip's far side, from the rim's corner at (bore, 0) down to the tube's end and the like."""
    width = bore - tube
    from_rim = (width - depth_tube) / math.sqrt(2)  # distance of the tube's end from the line
    from_tube = (width - depth_ring) / math.sqrt(2)
    return 2 * min(from_rim, from_tube)


def test_nozzle_into_the_open_ring() -> None:
    """Gauge disc 8 mm inside the gauge edge and 6 thick: its inner face is 46 mm from the field
    edge, and the tube ends 13 mm out of that edge's disc: 5 mm beyond the edge."""
    spec = plain_wheel(first_disc_both_sides=True)
    assert inside_nozzle_mm(spec) == pytest.approx(nozzle_by_turning(142, 28.5, 46, 51))


def test_without_a_tube_the_ring_alone_stands_opposite() -> None:
    spec = plain_wheel(first_disc_both_sides=True, hub_tube_length_mm=0.0, hub_tube_outside_mm=0.0)
    assert inside_nozzle_mm(spec) == pytest.approx(math.sqrt(2) * (2 * 142 - 46))


def with_nozzle(spec: WheelSpec, mm: float) -> str:
    setting = replace(setting_of(shop={"weld_reach_mm": mm}), wheel=spec)
    found = inside_access(setting)
    assert found is not None
    return found.verdict


def test_verdict() -> None:
    spec = plain_wheel(first_disc_both_sides=True)
    room = inside_nozzle_mm(spec)
    assert with_nozzle(spec, room - 0.1) == "pass"
    assert with_nozzle(spec, room + 0.1) == "warn"
    assert inside_access(setting_of()) is None  # nothing is welded in there
