"""The cutting table by hand: its own defaults, keys of a torch refused by name, all at once."""

from __future__ import annotations

import pytest

from platewheel.nesting.cutting.cut_speed import pace
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.hand_keys import TORCH_KEYS
from platewheel.nesting.stock.pierce_clear import laid_for_leads
from platewheel.parts.base.faults import SpecError


def test_defaults_by_hand_and_by_torch() -> None:
    torch, hand = Cutting(), Cutting(process="hand")
    assert (torch.kerf_mm, torch.part_spacing_mm, torch.sheet_margin_mm) == (1.7, 6.0, 10.0)
    assert (hand.kerf_mm, hand.part_spacing_mm, hand.sheet_margin_mm) == (2.0, 15.0, 15.0)


@pytest.mark.parametrize(("thick", "apart"), [(4.0, 15.0), (6.0, 15.0), (8.0, 20.0)])
def test_thick_plate_wants_more_room_unless_told(thick: float, apart: float) -> None:
    assert laid_for_leads(Cutting(process="hand"), thick).part_spacing_mm == apart
    own = Cutting(process="hand", part_spacing_mm=12.0)
    assert laid_for_leads(own, thick).part_spacing_mm == 12.0
    assert laid_for_leads(Cutting(), thick).part_spacing_mm == 6.0


def test_torch_keys_are_refused_by_name_all_at_once() -> None:
    given = {
        "kerf_in_path": True,
        "lead_in_mm": 4.0,
        "lead_out_mm": 2.0,
        "lead_shape": "arc",
        "pierce_clear_mm": 2.0,
        "pierce_s": 0.5,
        "rapid_mm_per_min": 8000.0,
        "current_a": 45.0,
        "heat_apart_mm": 50.0,
        "common_lines": True,
        "least_hole_mm": 10.0,
        "tab_count": 2,
        "tab_width_mm": 3.0,
        "skeleton_piece_mm": 500.0,
        "offcut_outline": "real",
    }
    with pytest.raises(SpecError) as told:
        Cutting(process="hand", **given)
    found = {fault.key: str(fault) for fault in told.value.faults if "left out" in str(fault)}
    assert set(found) == set(given) == set(TORCH_KEYS)
    assert all(f"remove {key}" in words for key, words in found.items())
    Cutting(process="hand", lead_in_mm=0.0, tab_count=0)  # said, and nothing of a torch


def test_pace_by_hand_falls_with_thickness() -> None:
    """600 to 1000 mm2 a minute: 0.10 to 0.16 m in 6 mm, 0.08 to 0.12 in 8, 0.06 to 0.10 in 10."""
    hand = Cutting(process="hand")
    for thick, low, high in ((6.0, 100, 160), (8.0, 80, 120), (10.0, 60, 100)):
        found = pace(hand, (), thick)
        assert low < found.speed_mm_per_min < high
        assert found.pierce_s == 0
    assert pace(Cutting(process="hand", cut_speed_mm_per_min=90.0), (), 6.0).speed_mm_per_min == 90
