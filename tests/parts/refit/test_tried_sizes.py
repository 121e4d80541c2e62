"""Spans of a ring: what it can be brought to holds what it meets as it is."""

from __future__ import annotations

from platewheel.parts.refit.shared_blanks import Window
from platewheel.parts.refit.tried_sizes import Ring


def test_a_window_between_two_steps_meets_the_lower_though_round_it_holds_the_upper_alone() -> None:
    """0.01 to 0.05 mm holds no tenth and takes 0; 0.005 to 0.12 holds 0.1, and 0.4 wider 0.5."""
    now, whole = Window(0.01, 0.03, 0.05), Window(0.005, 0.03, 0.12)
    assert Ring(((now,), ()), ((whole,), ()), (0.0, 0.0)).spans(0) == [((0, 0), (0, 1))]
    assert Ring(((now,), ()), ((whole,), ()), (-0.2, 0.4)).spans(0) == [((0, 0), (-1, 5))]
    assert Ring(((now,), ()), ((whole,), ()), (0.0, 0.0)).spans(1) == []
