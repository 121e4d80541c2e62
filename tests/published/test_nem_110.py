"""NEM 110G, garden gauges, as a steam club's page prints it (2013), mm: greatest and least of
check gauge C, span S and flangeway F, and a gauge line to guard E, all of gauge G.
"""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.crossings import check_gauge_mm, check_span_mm
from platewheel.parts.setting.track import TrackSpec

# G, its most, C, S, F, each least and most
ROWS = (
    (127.0, 130.0, (122.0, 123.0), (115.0, 116.0), (6.0, 7.0)),
    (184.0, 190.0, (176.0, 178.0), (168.0, 170.0), (6.0, 8.0)),
    (260.0, 268.0, (251.5, 253.0), (240.0, 241.5), (10.0, 11.5)),
)


@pytest.mark.parametrize("row", ROWS)
def test_span_is_check_gauge_less_a_flangeway(
    row: tuple[float, float, *tuple[tuple[float, float], ...]],
) -> None:
    gauge, _, check, span, way = row
    for c, s in zip(check, span, strict=True):
        assert check_gauge_mm(gauge, gauge - c) == pytest.approx(c)
        fx = c - s
        assert check_span_mm(gauge, gauge - c, fx) == pytest.approx(s)
        assert way[0] <= fx <= way[1]


@pytest.mark.parametrize("row", ROWS)
def test_the_gauge_of_a_miniature_line_is_as_wide_as_theirs(
    row: tuple[float, float, *tuple[tuple[float, float], ...]],
) -> None:
    """3 % more, up to the next half millimetre: 4, 6 and 8; theirs are 3, 6 and 8."""
    track = TrackSpec(gauge_mm=row[0], rail_head_width_mm=10, min_curve_radius_m=10, flangeway_mm=8)
    assert 0 <= track.most_gauge_mm - row[1] <= 1
