"""Load ratings against a public data set: the PyPI package mechanical-components, version 0.3.4,
which carries a maker's list of deep groove ball bearings (kN, C and C0). Read once by
`python -m tests.bench.read_bearings`; the figures stand here, the package is not needed."""

from __future__ import annotations

import pytest

from platewheel.parts.wheelset.bearing_table import BEARINGS, bearing_named

LISTED = {
    "6000": (4.85, 1.97),
    "6001": (5.4, 2.37),
    "6002": (5.9, 2.85),
    "6003": (6.4, 3.25),
    "6004": (10, 5),
    "6005": (10.7, 5.9),
    "6006": (13.5, 8),
    "6007": (17, 10.3),
    "6008": (17.8, 11.5),
    "6009": (21.2, 14.4),
    "6010": (22, 15.8),
    "6011": (30, 21.2),
    "6012": (31.5, 23.2),
    "6013": (32.5, 25),
    "6014": (40.5, 31),
    "6015": (42, 33.5),
    "6016": (51, 40),
    "6017": (53, 43),
    "6018": (62, 49.5),
    "6019": (64, 54),
    "6020": (64, 54),
    "6200": (6.3, 2.6),
    "6201": (7.3, 3.1),
    "6202": (8.2, 3.75),
    "6203": (10.1, 4.75),
    "6204": (13.6, 6.6),
    "6205": (14.9, 7.8),
    "6206": (20.7, 11.3),
    "6207": (27.5, 15.3),
    "6208": (31, 17.8),
    "6209": (33, 20.3),
    "6210": (39, 24.2),
    "6211": (46, 29),
    "6212": (57, 36.5),
    "6213": (63, 41.5),
    "6214": (66, 44),
    "6215": (70, 49),
    "6216": (77, 55),
    "6217": (89, 64),
    "6218": (102, 74),
    "6219": (116, 82),
    "6220": (130, 93),
    "6300": (8.6, 3.45),
    "6301": (10.3, 4.2),
    "6302": (12, 5.3),
    "6303": (14.4, 6.5),
    "6304": (16.9, 7.9),
    "6305": (23.8, 11.5),
    "6306": (30.5, 16.2),
    "6307": (35.5, 19.2),
    "6308": (45.5, 25),
    "6309": (56, 31.5),
    "6310": (68, 38.5),
    "6311": (83, 47.5),
    "6312": (89, 52),
    "6313": (100, 60),
    "6314": (115, 69),
    "6315": (123, 77),
    "6316": (131, 87),
    "6317": (141, 97),
    "6318": (142, 102),
    "6319": (154, 113),
    "6320": (177, 137),
}


@pytest.mark.parametrize("name", LISTED)
def test_no_rating_is_above_the_list(name: str) -> None:
    bearing = bearing_named(name)
    assert bearing is not None
    c, c0 = LISTED[name]
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
