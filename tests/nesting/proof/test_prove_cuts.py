"""A sound file made by hand is taken; what was asked and told is held against it."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from platewheel.nesting.proof.asked import Asked, Kept, Told
from platewheel.nesting.proof.cuts import MOST_TOLD, prove_cuts, require_cuts
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.geometry.outline import moved
from tests.nesting.proof.good_file import (
    KEPT,
    KERF,
    LEAD,
    E,
    Edit,
    asked,
    good,
    line,
    path,
    write,
)
from tests.nesting.proof.spoilt import TABS, TOTALS
from tests.nesting.proof.test_faults_of_leads import FAULTS

KINDS = [
    {"in_path": in_path, "tabs": tabs, "leads": leads}
    for in_path in (False, True)
    for tabs in (False, True)
    for leads in (False, True)
]


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_a_sound_file_is_taken(tmp_path: Path, version: str, kind: dict[str, bool]) -> None:
    assert prove_cuts(write(good(**kind), tmp_path / "s.dxf", version), asked(**kind)) == []


def arcs(on: Edit) -> None:
    """Quarter turns of 5 mm into and off the square, which is run upwards at its left."""
    on.put("lead 3", kind="arc", at=((185.0, 80.0), 5.0, -90.0, 0.0))
    on.before("parting", E("arc", "lead", ((185.0, 80.0), 5.0, 0.0, 90.0), name="off"))


def test_arcs_lead_too_and_off_again(tmp_path: Path) -> None:
    on = Edit(good())
    arcs(on)
    more = 2 * 5.0 * math.pi / 2 - LEAD
    wanted = replace(asked(), cut_length_mm=asked().cut_length_mm + more)
    assert prove_cuts(write(on.entities, tmp_path / "s.dxf"), wanted) == []
    on.put("off", at=((195.0, 80.0), 5.0, 90.0, 180.0))  # into the part
    told = prove_cuts(write(on.entities, tmp_path / "s.dxf"), wanted)
    assert len(told) == 1
    assert "the lead at (190.000, 80.000)" in told[0]
    assert "runs into its own part" in told[0]


def fine(x: float, step: float) -> list[tuple[float, float]]:
    """Clockwise from the middle of the square's left side, its upper half in short straight
    pieces, the first of them half as long."""
    count = round((40.0 - step / 2) / step)
    rise = [(x, 80.0 + step / 2 + k * step) for k in range(count)]
    return [(x, 80.0), *rise, (x, 120.0), (270.0, 120.0), (270.0, 40.0), (x, 40.0)]


@pytest.mark.parametrize("step", [0.05, 0.2, 1.0])
def test_an_arc_may_run_smoothly_into_pieces_as_short_as_it_lies_on_them(
    tmp_path: Path, step: float
) -> None:
    """A quarter of 5 mm leaves its tangent by 0.002 mm in 0.14 mm."""
    on = Edit(good())
    arcs(on)
    on.put("square", at=tuple((*corner, 0.0) for corner in fine(190.0, step)))
    more = 2 * 5.0 * math.pi / 2 - LEAD
    wanted = replace(asked(), cut_length_mm=asked().cut_length_mm + more)
    assert prove_cuts(write(on.entities, tmp_path / "s.dxf"), wanted) == []


@pytest.mark.parametrize(("radius", "told"), [(15.0, False), (34.99, True)])
def test_an_arc_that_hugs_the_hole_that_it_leads_into_is_told(
    tmp_path: Path, radius: float, told: bool
) -> None:
    """Of 34.99 mm in a hole of 35 mm it is 0.002 mm off after 22 mm of way only."""
    on = Edit(good())
    on.put("lead 2h", kind="arc", at=((65.0 + radius, 100.0), radius, 90.0, 180.0))
    file = write(on.entities, tmp_path / "s.dxf")
    along = [one for one in prove_cuts(file, asked()) if "along the same way" in one]
    assert bool(along) == told


@pytest.mark.parametrize("x", [190.0, 189.997])
def test_a_mark_may_end_where_the_lead_of_its_part_comes_in(tmp_path: Path, x: float) -> None:
    on = Edit(good())
    on.put("bend", at=((x, 80.0), (260.0, 80.0)))
    assert prove_cuts(write(on.entities, tmp_path / "s.dxf"), asked()) == []


def test_a_piece_to_keep_may_be_left_in_the_grid(tmp_path: Path) -> None:
    on = Edit(good())
    on.drop("parting")
    file = write(on.entities, tmp_path / "s.dxf")
    wanted = replace(asked(), pierces=6, cut_length_mm=asked().cut_length_mm - 300)
    assert prove_cuts(file, replace(wanted, parted=False)) == []
    assert "is not cut free" in prove_cuts(file, wanted)[0]


@pytest.mark.parametrize("x", [299.0, 300.0, 300.7])
def test_a_parting_cut_may_run_along_the_edge_of_what_is_kept(tmp_path: Path, x: float) -> None:
    on = Edit(good())
    on.put("parting", at=((x, 0.0), (x, 300.0)))
    assert prove_cuts(write(on.entities, tmp_path / "s.dxf"), asked()) == []


INNER = ((200.0, 200.0), (280.0, 200.0), (280.0, 280.0), (200.0, 280.0))


@pytest.mark.parametrize("by", ["lines", "closed", "ends that meet"])
def test_a_piece_may_be_parted_all_round_from_a_lead(tmp_path: Path, by: str) -> None:
    """By lines that run on into each other or one polyline: one pierce."""
    on = Edit(good())
    ring = [(199.25, 199.25), (280.75, 199.25), (280.75, 280.75), (199.25, 280.75)]
    sides = [line("offcut", a, b) for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)]
    cut = {
        "lines": sides,
        "closed": [path("offcut", ring, "")],
        "ends that meet": [path("offcut", [*ring, ring[0]], "", closed=False)],
    }[by]
    on.before("grid", line("lead", (194.25, 199.25), ring[0]), *cut)
    wanted = replace(
        asked(),
        kept=(*asked().kept, Kept(INNER)),
        pierces=asked().pierces + 1,
        cut_length_mm=asked().cut_length_mm + 5.0 + 4 * 81.5,
    )
    assert prove_cuts(write(on.entities, tmp_path / "s.dxf"), wanted) == []


def test_a_piece_to_keep_in_a_hole_falls_out_with_its_slug(tmp_path: Path) -> None:
    """Beside the small disc in the hole of 70 mm; the slug reaches further round it than 1 mm."""
    small = ((74.0, 96.0), (82.0, 96.0), (82.0, 104.0), (74.0, 104.0))
    wanted = replace(asked(), kept=(*asked().kept, Kept(small)), keep_reach_mm=1.0)
    file = write(good(), tmp_path / "s.dxf")
    assert prove_cuts(file, wanted) == []
    on = Edit(good())
    on.before("grid", line("offcut", (78.0, 90.0), (78.0, 110.0)))
    told = prove_cuts(write(on.entities, file), wanted)
    assert any("runs into a piece to keep" in line for line in told), told


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("turn_deg", [17.0, 123.4, 271.0])
@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_a_sound_file_is_sound_turned(
    tmp_path: Path, version: str, turn_deg: float, kind: dict[str, bool]
) -> None:
    on = Edit(good(**kind))
    if kind == {"in_path": False, "tabs": False, "leads": True}:
        arcs(on)
    file = write([turned(e, turn_deg) for e in on.entities], tmp_path / "s.dxf", version)
    told = prove_cuts(file, turned_asked(asked(**kind), turn_deg))
    assert not [line for line in told if "the report" not in line]


def turned(e: E, by_deg: float) -> E:
    """Turned about the origin."""
    if e.kind == "arc":
        (x, y), radius, low, high = e.at
        return replace(e, at=(turned_point(x, y, by_deg), radius, low + by_deg, high + by_deg))
    if e.kind in ("point", "text"):
        return replace(e, at=turned_point(*e.at, by_deg))
    return replace(e, at=tuple((*turned_point(*c[:2], by_deg), *c[2:]) for c in e.at))


def turned_point(x: float, y: float, by_deg: float) -> tuple[float, float]:
    cos, sin = math.cos(math.radians(by_deg)), math.sin(math.radians(by_deg))
    return cos * x - sin * y, sin * x + cos * y


def turned_asked(one: Asked, by_deg: float) -> Asked:
    def ring(corners: Any) -> Any:
        return tuple(turned_point(*corner, by_deg) for corner in corners)

    return replace(
        one,
        plate=ring(one.plate),
        kept=tuple(Kept(ring(piece.corners)) for piece in one.kept),
        parts=tuple(
            replace(
                part,
                outline=moved(part.outline, 0.0, 0.0, by_deg),
                holes=tuple(moved(hole, 0.0, 0.0, by_deg) for hole in part.holes),
            )
            for part in one.parts
        ),
    )


def asked_otherwise(**more: Any) -> Asked:
    return replace(asked(**TABS), **more)


@pytest.mark.parametrize(
    ("more", "wanted"),
    [
        ({"pierces": 8}, "the file has 9 pierces, the report 8"),
        ({"cut_length_mm": asked(**TABS).cut_length_mm + 0.91}, "mm of cut, the report"),
        ({"cut_length_mm": asked(**TABS).cut_length_mm - 0.91}, "mm of cut, the report"),
        ({"tab_count": 3}, "part 3, square, at (190.000, 40.000) has 2 tabs, 3 wanted"),
        (
            {"tab_count": 1, "told": Told(fewer_tabs=frozenset({1, 2, 3}))},
            "part 3, square, at (190.000, 40.000) has 2 tabs, 1 wanted",
        ),
        ({"tab_width_mm": 1.6}, "1.6 within 0.05 wanted"),
        ({"told": Told()}, "part 1, disc, at (115.000, 100.000) has 0 tabs, 2 wanted"),
        ({"plate_holes": (((10, 200), (20, 200), (20, 210)),)}, "is not on layer sheet-edge"),
        ({"kept": (Kept(KEPT), Kept(((10, 200), (60, 200), (60, 250))))}, "is not cut free"),
        ({"kerf_mm": KERF + 0.02}, "0.76 within 0.005 wanted"),
    ],
)
def test_what_was_asked_is_held_against_the_file(tmp_path: Path, more: dict, wanted: str) -> None:
    told = prove_cuts(write(good(**TABS), tmp_path / "s.dxf"), asked_otherwise(**more))
    assert any(wanted in line for line in told), told


def test_within_a_tenth_of_a_millimetre_a_cut_the_length_is_taken(tmp_path: Path) -> None:
    file = write(good(**TABS), tmp_path / "s.dxf")
    near = asked_otherwise(cut_length_mm=asked(**TABS).cut_length_mm + 0.89)
    assert prove_cuts(file, near) == []


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("no lead", Told(no_lead=frozenset({2}))),
        ("pierce near its own edge", Told(near_pierce=frozenset({3}))),
        ("pierce near the kerf of another", Told(near_pierce=frozenset({3}))),
    ],
)
def test_what_the_user_is_told_is_taken_of_that_part_alone(
    tmp_path: Path, name: str, told: Told
) -> None:
    on = Edit(good())
    FAULTS[name][1](on)
    file = write(on.entities, tmp_path / "s.dxf")

    def others(about: Told) -> list[str]:
        return [x for x in prove_cuts(file, replace(asked(), told=about)) if TOTALS not in x]

    assert others(told) == []
    assert others(Told(frozenset({1}), frozenset({1}))) != []


def test_a_file_that_cannot_be_read_is_a_fault(tmp_path: Path) -> None:
    file = tmp_path / "s.dxf"
    file.write_text("no drawing")
    assert "cannot be read" in prove_cuts(file, asked())[0]
    assert prove_cuts(write([], file), asked()) == ["the file is empty"]


def test_a_refusal_tells_the_file_and_its_first_faults(tmp_path: Path) -> None:
    file = write(good(), tmp_path / "6mm-1.dxf")
    require_cuts(file, asked())
    with pytest.raises(NestingError, match=r"the cutting file 6mm-1.dxf is not sound: .*pierces"):
        require_cuts(file, replace(asked(), pierces=0))
    only = write(good()[:1], file)
    count = len(prove_cuts(only, replace(asked(), parts=asked().parts * 4)))
    assert count > MOST_TOLD
    with pytest.raises(NestingError, match=f"and {count - MOST_TOLD} more"):
        require_cuts(only, replace(asked(), parts=asked().parts * 4))
