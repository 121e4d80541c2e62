"""Fixtures of the tests of `propose`."""

from __future__ import annotations

import pytest

FEW = {
    "DEPTHS_MM": (10.0, 15.0),
    "ANGLES_DEG": (66.0, 70.0, 74.0),
    "INSETS_MM": (8.0, 10.0),
    "VENTS": ((4, 16.0), (4, 20.0)),
    "WIDTHS_MM": (60.0,),
}


@pytest.fixture
def few_choices(monkeypatch: pytest.MonkeyPatch) -> None:
    """Some thousand wheels to choose from in place of millions: that they are sifted fast is asked
    elsewhere."""
    for axis, few in FEW.items():
        monkeypatch.setattr(f"platewheel.parts.propose.choices.{axis}", few)
