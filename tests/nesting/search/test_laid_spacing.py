"""A layout is proved at the spacing it was laid with, also where leads ask for more."""

from __future__ import annotations

from typing import Any

import pytest

from platewheel.nesting.search import nest as module
from platewheel.nesting.stock.layout import Layout, NestingError, Placement, Wanted
from platewheel.nesting.stock.pierce_clear import led_spacing_mm
from tests.nesting.plates import cutting, disc, plate


@pytest.mark.parametrize("short_mm", [0.0, 0.1])
def test_parts_nearer_than_leads_ask_for_are_a_fault(
    monkeypatch: pytest.MonkeyPatch, short_mm: float
) -> None:
    cut, part, sheet = (
        cutting(4.0, lead_in_mm=5.0, pierce_clear_mm=4.0),
        disc(100.0),
        plate(900, 400),
    )
    apart = led_spacing_mm(cut, part.thickness_mm)
    assert apart > 4.5
    second = 60.0 + 100.0 + apart - short_mm
    laid = Layout(sheet, (Placement(part, 60, 60, 0.0), Placement(part, second, 60, 0.0)))

    def plan(*_: Any) -> tuple[list[Layout], list[Wanted]]:
        return [laid], []

    monkeypatch.setattr(module, "best_plan", plan)
    if not short_mm:
        assert module.nest([Wanted(part, 2)], [sheet], cut, effort="quick").layouts == (laid,)
        return
    with pytest.raises(NestingError, match="disc"):
        module.nest([Wanted(part, 2)], [sheet], cut, effort="quick")
