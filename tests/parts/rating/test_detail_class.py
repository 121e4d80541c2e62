"""Detail classes: the tables named, and that every weld of a wheel has its own."""

from __future__ import annotations

import pytest

from platewheel.parts.rating import detail_class
from platewheel.parts.rating.detail_class import DetailClass, details, root_classes, seam_class
from platewheel.parts.wheel.welds import bead_words, weld_beads
from tests.parts.wheels import WHEELS, plain_wheel

# name -> class, slope, the table; EN 1993-1-9:2005 and IIW (Hobbacher), from memory
TABLES = {
    "TOE": (90.0, 3, "IIW"),
    "FILLET_ROOT": (36.0, 3, "EN 1993-1-9 table 8.5"),
    "OPENED_ROOT": (80.0, 3, "Fricke"),
    "WHOLE_ROOT": (80.0, 3, "EN 1993-1-9:2005, 7.2.1"),
    "BACKED_ROOT": (90.0, 3, "EN 1993-1-9 table 8.5"),
    "SHEAR": (80.0, 5, "EN 1993-1-9 table 8.5"),
    "SEAM_AS_WELDED": (80.0, 3, "EN 1993-1-9 table 8.3"),
    "SEAM_DRESSED": (90.0, 3, "EN 1993-1-9 table 8.3"),
}


@pytest.mark.parametrize("name", TABLES)
def test_a_class_is_its_tables(name: str) -> None:
    one: DetailClass = getattr(detail_class, name)
    fat, slope, table = TABLES[name]
    assert (one.fat_n_mm2, one.slope) == (fat, slope)
    assert table in one.source
    assert "from memory" in one.source


def test_every_class_is_in_the_table() -> None:
    there = {name for name, one in vars(detail_class).items() if isinstance(one, DetailClass)}
    assert there == set(TABLES)


@pytest.mark.parametrize("name", ["plain", "pipe", "washer", "both-sides", "three-segments"])
def test_every_weld_has_a_class(name: str) -> None:
    spec = WHEELS[name]
    told = {word for word, _ in details(spec)}
    beads = {bead_words(b.name) for b in weld_beads(spec) if "seam" not in b.name}
    seams = {"ring seam"} if spec.tread_from != "pipe" else set()
    seams |= set() if name == "washer" else {"flange seams"}
    assert told == beads | seams


def test_what_a_key_does_to_a_class() -> None:
    plain, strong = plain_wheel(), WHEELS["both-sides"]
    assert [one.fat_n_mm2 for one in root_classes(plain, "weld-root")] == [36.0, 80.0]
    assert [one.fat_n_mm2 for one in root_classes(strong, "weld-root")] == [90.0]
    # the slit between its two roots stays: each is a fillet's
    assert [one.fat_n_mm2 for one in root_classes(strong, "weld-disc-gauge")] == [36.0, 80.0]
    assert [seam_class(spec).fat_n_mm2 for spec in (plain, strong)] == [80.0, 90.0]
