"""Sizes and load ratings against a public data set: the PyPI package mechanical-components, version
0.3.4, which carries makers' lists of deep groove ball bearings; of open, shielded and sealed ones
in all lists the lowest ratings. Read once by `python -m tests.bench.read_bearings`; the figures
stand here, the package is not needed."""

from __future__ import annotations

import pytest

from platewheel.parts.wheelset.bearing_table import BEARINGS, bearing_named

LISTED = {  # outside, width (mm), C, C0 (kN)
    "6000": (26, 8, 4.45, 1.96),
    "6001": (28, 8, 5, 2.37),
    "6002": (32, 9, 5.4, 2.84),
    "6003": (35, 10, 5.8, 3.25),
    "6004": (42, 12, 9.2, 5),
    "6005": (47, 12, 9.8, 5.8),
    "6006": (55, 13, 13, 8),
    "6007": (62, 14, 15.5, 10.3),
    "6008": (68, 15, 16.4, 11.5),
    "6009": (75, 16, 20.5, 14.4),
    "6010": (80, 16, 21.1, 15.8),
    "6011": (90, 18, 27.5, 21.2),
    "6012": (95, 18, 28.6, 23.2),
    "6013": (100, 18, 29.6, 25),
    "6014": (110, 20, 37, 30.5),
    "6015": (115, 20, 38.4, 33.5),
    "6016": (125, 22, 46.2, 39.8),
    "6017": (130, 22, 48.9, 43),
    "6018": (140, 24, 56.4, 49.5),
    "6019": (145, 24, 59.6, 54),
    "6020": (150, 24, 59.4, 54),
    "6200": (30, 9, 5.65, 2.39),
    "6201": (32, 10, 6.75, 2.75),
    "6202": (35, 11, 7.6, 3.6),
    "6203": (40, 12, 9.4, 4.6),
    "6204": (47, 14, 12.6, 6.6),
    "6205": (52, 15, 13.8, 7.8),
    "6206": (62, 16, 19.2, 11.3),
    "6207": (72, 17, 25.3, 15.3),
    "6208": (80, 18, 28.7, 17.8),
    "6209": (85, 19, 31.2, 20.3),
    "6210": (90, 20, 34.4, 23.2),
    "6211": (100, 21, 42.6, 29),
    "6212": (110, 22, 51.6, 36),
    "6213": (120, 23, 56.1, 40),
    "6214": (125, 24, 59.7, 44),
    "6215": (130, 25, 64.8, 48.3),
    "6216": (140, 26, 72.1, 53),
    "6217": (150, 28, 83.6, 62),
    "6218": (160, 30, 95.3, 71.5),
    "6219": (170, 32, 108, 81.9),
    "6220": (180, 34, 121, 93),
    "6300": (35, 11, 7.6, 3.45),
    "6301": (37, 12, 9.7, 4.2),
    "6302": (42, 13, 11.2, 5.3),
    "6303": (47, 14, 13.5, 6.5),
    "6304": (52, 15, 15.8, 7.9),
    "6305": (62, 17, 22.2, 10.9),
    "6306": (72, 19, 26.7, 15),
    "6307": (80, 21, 33, 19.1),
    "6308": (90, 23, 40.3, 24),
    "6309": (100, 25, 52.3, 31.5),
    "6310": (110, 27, 61.3, 38),
    "6311": (120, 29, 70.7, 44.7),
    "6312": (130, 31, 81, 52),
    "6313": (140, 33, 91.7, 59.8),
    "6314": (150, 35, 103, 68),
    "6315": (160, 37, 113, 77),
    "6316": (170, 39, 122, 86.5),
    "6317": (180, 41, 132, 96.8),
    "6318": (190, 43, 142, 102),
    "6319": (200, 45, 151, 113),
    "6320": (215, 47, 172, 137),
}


@pytest.mark.parametrize("name", LISTED)
def test_sizes_as_listed_and_no_rating_above_the_lowest(name: str) -> None:
    bearing = bearing_named(name)
    assert bearing is not None
    outside, width, c, c0 = LISTED[name]
    assert (bearing.outside_mm, bearing.width_mm) == (outside, width)
    assert 0.75 * c <= bearing.c_kn <= c
    assert 0.75 * c0 <= bearing.c0_kn <= c0


def test_every_deep_groove_bearing_up_to_100_mm_is_in_the_list() -> None:
    assert {b.name for b in BEARINGS if b.kind == "deep-groove"} == set(LISTED)
    assert max(b.bore_mm for b in BEARINGS) == 100


def test_an_insert_is_rated_as_the_62_bearing_of_its_outside() -> None:
    by_outside = {b.outside_mm: b for b in BEARINGS if b.name.startswith("62")}
    for insert in (b for b in BEARINGS if b.kind == "insert"):
        like = by_outside[insert.outside_mm]
        assert (insert.c_kn, insert.c0_kn) == (like.c_kn, like.c0_kn)
