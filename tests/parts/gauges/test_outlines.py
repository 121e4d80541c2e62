"""Every gauge of any setting is one sound plate, and what cannot be one is refused by its key."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.parts.base.faults import SpecError
from platewheel.parts.gauges.edge import Bite, bite_mm, closed, mirrored
from platewheel.parts.gauges.gauge import Gauge, Stuff
from platewheel.parts.gauges.spec import KINDS, GaugesSpec
from platewheel.parts.gauges.wanted import MAKERS, NAMES, wanted_gauges
from platewheel.parts.geometry.blank import MarkText
from platewheel.parts.geometry.outline import Arc, area_mm2, signed_area_mm2
from platewheel.parts.setting.setting import Setting
from tests.parts.gauges.drawn_settings import across, plate, setting_of, settings_drawn

ALL = GaugesSpec(**dict.fromkeys(KINDS, True), thickness_mm=6.0)  # type: ignore[arg-type]


def made_or_refused(
    maker: Callable[[Setting, Stuff], Gauge | None], setting: Setting, kerf_mm: float = 1.7
) -> Gauge | SpecError | None:
    try:
        return maker(setting, Stuff(6.0, kerf_mm))
    except SpecError as error:
        return error


@given(settings_drawn())
def test_a_gauge_is_one_plate_without_crossing_edges_or_it_is_refused(setting: Setting) -> None:
    for key, maker in MAKERS:
        gauge = made_or_refused(maker, setting)
        if isinstance(gauge, SpecError):
            assert {fault.key for fault in gauge.faults} == {f"gauges.{key}"}
            continue
        if gauge is None:
            assert setting.track.check_rail_flangeway_mm is None
            continue
        shape = plate(gauge)
        assert shape.is_valid
        assert shape.area == pytest.approx(gauge.blank.area_mm2, rel=1e-3)
        assert signed_area_mm2(gauge.blank.outline) > 0
        assert all(size.value > 0 for size in gauge.sizes)
        assert shape.buffer(-0.7).geom_type == "Polygon"  # no neck that a torch burns through


@given(settings_drawn(), st.floats(0.1, 3.0))
def test_a_torch_can_run_round_every_gauge(setting: Setting, kerf: float) -> None:
    for _, maker in MAKERS:
        gauge = made_or_refused(maker, setting, kerf)
        if isinstance(gauge, Gauge):
            path = torch_path(gauge.blank.outline, kerf, hole=False)
            assert area_mm2(path) > gauge.blank.area_mm2


def test_the_words_on_a_gauge_lie_on_it_and_begin_with_its_number() -> None:
    setting = setting_of(track={"check_rail_flangeway_mm": 15.0})
    gauges = wanted_gauges(ALL, setting, 1.7)
    assert [gauge.number for gauge in gauges] == [1, 2, 3, 4, 5, 6]
    assert tuple(gauge.blank.name for gauge in gauges) == NAMES
    for gauge in gauges:
        shape, words = plate(gauge), [m for m in gauge.blank.marks if isinstance(m, MarkText)]
        assert len(words) == len(gauge.blank.marks)
        assert words[0].text.startswith(f"No. {gauge.number} ")
        x0, y0, x1, y1 = shape.bounds
        assert gauge.blank.sizes == pytest.approx({"length_mm": x1 - x0, "width_mm": y1 - y0})
        boxes = [letters(mark) for mark in words]
        assert all(shape.contains(one) for one in boxes)
        assert not any(a.intersects(b) for a, b in combinations(boxes, 2))
        assert all(4 <= mark.height_mm <= 8 for mark in words)  # to be read, and stamped


def letters(mark: MarkText) -> Polygon:
    """The box that words take, letters 0.8 as wide as high."""
    half, tall = 0.4 * mark.height_mm * len(mark.text), mark.height_mm / 2
    return box(mark.at[0] - half, mark.at[1] - tall, mark.at[0] + half, mark.at[1] + tall)


def test_go_and_no_go_are_written_on_the_end_of_their_size() -> None:
    setting = setting_of(track={"check_rail_flangeway_mm": 15.0})
    ends = [gauge for gauge in wanted_gauges(ALL, setting, 1.7) if gauge.number in (1, 5, 6)]
    assert len(ends) == 3
    for gauge in ends:
        shape, found = plate(gauge), {}
        for mark in gauge.blank.marks:
            assert isinstance(mark, MarkText)
            if "GO " in mark.text:
                tongue = math.copysign(shape.bounds[2] - 2, mark.at[0])  # at the words' end
                upright = gauge.number != 1
                low, high = across(shape, tongue if upright else mark.at[1], upright=upright)
                found[mark.text] = high - low
        go, no_go = found
        assert go == f"GO {found[go]:.1f}"
        assert no_go == f"NO GO {found[no_go]:.1f}"
        assert found[go] < found[no_go]


def test_a_bite_goes_into_the_plate_and_leaves_the_shoulder_its_full_length() -> None:
    notched = closed([(0, 0), (20, 0), (20, 10), (12, 10), Bite((12, 13)), (12, 20), (0, 20)])
    bitten = next(one for one in notched if isinstance(one, Arc))
    assert bitten.start == pytest.approx((12, 10))
    assert bitten.end == pytest.approx((12, 13))
    assert area_mm2(notched) == pytest.approx(20 * 10 + 12 * 10 - math.pi * 1.5**2 / 2)


def test_a_mirror_image_bites_as_deep() -> None:
    right = [(10.0, 0.0), (10.0, 6.0), Bite((10.0, 9.0)), (15.0, 9.0), (15.0, 20.0)]
    both = closed([*right, *mirrored(right)])
    assert area_mm2(both) == pytest.approx(20 * 9 + 30 * 11 - math.pi * 1.5**2)
    with pytest.raises(ValueError, match="no bite"):
        mirrored([Bite((1.0, 1.0)), (2.0, 2.0)])


def test_a_short_edge_has_no_bite_and_a_wide_kerf_a_wider_one() -> None:
    assert bite_mm(Stuff(6.0, 1.0), 7.4) == 0.0
    assert bite_mm(Stuff(6.0, 1.0), 7.6) == 2.5
    assert bite_mm(Stuff(6.0, 1.0), 20.0, 7.4) == 0.0  # beside the shorter of two
    assert bite_mm(Stuff(6.0, 3.0), 20.0) == 4.5


def test_all_that_cannot_be_made_is_told_at_once() -> None:
    setting = setting_of(track={"gauge_tolerance_mm": (0.0, 0.1)}, wear_allowance_mm=0.0)
    with pytest.raises(SpecError) as caught:
        wanted_gauges(ALL, setting, 1.7)
    keys = [fault.key for fault in caught.value.faults]
    assert keys == ["gauges.track", "gauges.wear"]
    assert "use.wear_allowance_mm = 0.4, or wear = false" in caught.value.faults[1].advice


def test_none_are_made_where_none_are_asked_for() -> None:
    assert wanted_gauges(GaugesSpec(), setting_of(), 1.7) == ()
    one = wanted_gauges(GaugesSpec(wear=True, thickness_mm=5.0), setting_of(), 1.7)
    assert [(gauge.number, gauge.blank.thickness_mm) for gauge in one] == [(4, 5.0)]
