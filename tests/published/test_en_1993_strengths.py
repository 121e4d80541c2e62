"""Strengths of structural steel against EN 1993-1-1:2005, table 3.1, as the PyPI package eurocodepy
2027.0.12 carries it. Read once by `python -m tests.bench.read_yields`; the figures stand here, the
package is not needed. Ours are EN 10025-2's, in narrower bands: never above table 3.1's."""

from __future__ import annotations

import pytest

from platewheel.parts.base.steel import STEELS

LISTED = {  # fy, fu up to 40 mm, then over 40 up to 80 mm, N/mm2
    "S235": (235, 360, 215, 360),
    "S275": (275, 430, 255, 410),
    "S355": (355, 490, 335, 470),
}
UP_TO_40, UP_TO_80 = (3.0, 16.0, 16.1, 40.0), (40.1, 63.0, 63.1, 80.0)


@pytest.mark.parametrize("name", LISTED)
def test_no_strength_is_above_the_eurocodes(name: str) -> None:
    fy, fu, fy_thick, fu_thick = LISTED[name]
    steel = STEELS[name]
    for thicknesses, most_fy, most_fu in ((UP_TO_40, fy, fu), (UP_TO_80, fy_thick, fu_thick)):
        found = [steel.fy_n_mm2(mm) for mm in thicknesses]
        assert max(found) == most_fy  # the same at the thin end
        assert min(found) >= 0.95 * most_fy  # and little lower where the product standard is
        assert all(0.95 * most_fu <= steel.fu_at_n_mm2(mm) <= most_fu for mm in thicknesses)


def test_every_grade_that_a_wheel_is_made_of_is_listed() -> None:
    assert set(STEELS) == set(LISTED)
