"""Layers renamed as a machine wants them: nothing but names and colours changes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.files.dxf_entities import LAYERS, Version
from platewheel.nesting.files.file_layers import (
    FileLayer,
    file_layer_faults,
    names_of,
    ours_again,
)
from platewheel.nesting.files.write_dxf import write_blank_dxf, write_sheet_dxf
from platewheel.parts.base.faults import SpecError
from tests.nesting.files.test_sheet_file import FULL, LAYOUT
from tests.nesting.plates import NAMED, cutting

SHOP = (
    FileLayer(layer="cut-outline", name="OUTSIDE", colour=5),
    FileLayer(layer="cut-hole", name="INSIDE"),
    FileLayer(layer="lead", name="INSIDE"),
    FileLayer(layer="mark", name="0", colour=200),
    FileLayer(layer="text", colour=2),
)


def entities(path: Path) -> list[tuple[str, str, Any]]:
    """Kind, layer and all the rest of each entity."""
    found = []
    for entity in ezdxf.readfile(path).modelspace():
        given_up = ("layer", "handle", "owner")
        rest = {k: str(v) for k, v in entity.dxfattribs().items() if k not in given_up}
        points = list(entity.get_points()) if entity.dxftype() == "LWPOLYLINE" else []
        if entity.dxftype() == "POLYLINE":
            points = [(str(v.dxf.location), v.dxf.bulge, v.dxf.layer) for v in entity.vertices]
            points = [point[:2] for point in points]
        found.append((entity.dxftype(), entity.dxf.layer, (rest, points)))
    return found


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_only_names_and_colours_change(version: Version, tmp_path: Path) -> None:
    cut = cutting(dxf_version=version, **FULL)
    write_sheet_dxf(LAYOUT, cut, tmp_path / "ours.dxf")
    write_sheet_dxf(LAYOUT, cut, tmp_path / "shop.dxf", layers=SHOP)
    write_blank_dxf(NAMED, tmp_path / "blank-ours.dxf", version)
    write_blank_dxf(NAMED, tmp_path / "blank-shop.dxf", version, layers=SHOP)
    names = names_of(SHOP)
    for start in ("", "blank-"):
        ours, shop = (entities(tmp_path / f"{start}{name}.dxf") for name in ("ours", "shop"))
        assert shop == [(kind, names[layer][0], rest) for kind, layer, rest in ours]
        assert {layer for _, layer, _ in ours} & set(LAYERS)
        doc = ezdxf.readfile(tmp_path / f"{start}shop.dxf")
        layers = {layer.dxf.name: layer.dxf.color for layer in doc.layers}
        assert layers["OUTSIDE"] == 5
        assert layers["INSIDE"] == LAYERS["cut-hole"]  # the first of those that share it
        assert (layers["0"], layers["text"]) == (200, 2)
        assert not set(layers) & {"cut-outline", "cut-hole", "lead", "mark"}
        assert not doc.audit().errors
        for entity in doc.modelspace().query("POLYLINE"):
            assert {v.dxf.layer for v in entity.vertices} == {entity.dxf.layer}


def test_without_rows_the_file_is_the_same(tmp_path: Path) -> None:
    write_sheet_dxf(LAYOUT, cutting(), tmp_path / "a.dxf")
    write_sheet_dxf(LAYOUT, cutting(), tmp_path / "b.dxf", layers=())
    assert (tmp_path / "a.dxf").read_bytes() == (tmp_path / "b.dxf").read_bytes()
    assert names_of(()) == {name: (name, colour) for name, colour in LAYERS.items()}


def test_names_may_be_swapped(tmp_path: Path) -> None:
    rows = (
        FileLayer(layer="cut-outline", name="cut-hole"),
        FileLayer(layer="cut-hole", name="cut-outline"),
    )
    assert list(file_layer_faults(rows, "R12")) == []
    write_blank_dxf(NAMED, tmp_path / "ours.dxf")
    write_blank_dxf(NAMED, tmp_path / "shop.dxf", layers=rows)
    ours, shop = (entities(tmp_path / f"{name}.dxf") for name in ("ours", "shop"))
    swap = {"cut-outline": "cut-hole", "cut-hole": "cut-outline"}
    assert [layer for _, layer, _ in shop] == [swap.get(layer, layer) for _, layer, _ in ours]


@given(st.lists(st.tuples(st.sampled_from(list(LAYERS)), st.sampled_from(["A", "B", "text"]))))
def test_a_name_has_one_colour(pairs: list[tuple[str, str]]) -> None:
    rows = [FileLayer(layer=layer, name=name) for layer, name in dict(pairs).items()]
    colours: dict[str, set[int]] = {}
    for name, colour in names_of(rows).values():
        colours.setdefault(name, set()).add(colour)
    assert all(len(one) == 1 for one in colours.values())


@given(st.lists(st.tuples(st.sampled_from(list(LAYERS)), st.sampled_from(["A", "B", "text"]))))
def test_no_name_is_of_something_cut_and_of_something_not_cut(pairs: list[tuple[str, str]]) -> None:
    """A controller is told what to do by layer: marks under a name that is cut would be cut."""
    given_names = dict(pairs)
    rows = [FileLayer(layer=layer, name=name) for layer, name in given_names.items()]
    names = {layer: given_names.get(layer, layer) for layer in LAYERS}
    cut = {names[one] for one in ("cut-outline", "cut-hole", "lead", "offcut", "skeleton")}
    wrong = [one for one in ("mark", "text", "sheet-edge") if names[one] in cut]
    faults = list(file_layer_faults(rows, "R12"))
    assert [fault.allowed.split()[0] for fault in faults] == wrong
    for fault in faults:
        i = int(fault.key.removeprefix("file_layer[").split("]")[0])
        assert rows[i].name == fault.value
        assert names[fault.allowed.split()[0]] == fault.value


@pytest.mark.parametrize(
    ("row", "key"),
    [
        ({"layer": "cut"}, "layer"),
        ({"layer": "cut-hole"}, "name"),
        ({"layer": "cut-hole", "name": "a/b"}, "name"),
        ({"layer": "cut-hole", "name": ""}, "name"),
        ({"layer": "cut-hole", "name": "a "}, "name"),
        ({"layer": "cut-hole", "colour": 0}, "colour"),
        ({"layer": "cut-hole", "colour": 256}, "colour"),
        ({"layer": "cut-hole", "colour": 1.5}, "colour"),
    ],
)
def test_a_row_at_fault_is_told_by_its_key(row: dict[str, Any], key: str) -> None:
    with pytest.raises(SpecError) as caught:
        FileLayer(**row)
    assert [fault.key for fault in caught.value.faults if fault.key == key]


@pytest.mark.parametrize(
    ("rows", "version", "key", "words"),
    [
        ([("lead", "A", None), ("lead", "B", None)], "R2000", "[1].layer", "one row for each"),
        ([("lead", "A", 3), ("cut-hole", "A", 4)], "R2000", "[1].colour", "it has 3"),
        ([("lead", "Cut", None), ("mark", "CUT", None)], "R2000", "[1].name", "there is Cut"),
        ([("lead", "MARK", None)], "R2000", "[0].name", "there is mark"),
        ([("mark", "lead", None)], "R2000", "[0].name", "or it is cut too"),
        ([("cut-hole", "sheet-edge", None)], "R2000", "[0].name", "sheet-edge under another"),
        ([("lead", "a b", None)], "R12", "[0].name", "in R12 at most 31"),
        ([("lead", "a" * 32, None)], "R12", "[0].name", "in R12 at most 31"),
    ],
)
def test_rows_that_do_not_go_together(
    rows: list[tuple[str, str, int | None]], version: Version, key: str, words: str
) -> None:
    given_rows = [FileLayer(layer=a, name=b, colour=c) for a, b, c in rows]
    (fault,) = file_layer_faults(given_rows, version)
    assert fault.key == f"file_layer{key}"
    assert words in fault.allowed
    if version == "R12":
        assert list(file_layer_faults(given_rows, "R2000")) == []


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("shared", [False, True])
def test_layers_are_ours_again_for_pictures(tmp_path: Path, version: Version, shared: bool) -> None:
    """Also where cuts share one name: outlines run clockwise, holes the other way."""
    shop = [FileLayer(layer="cut-outline", name="CUT"), FileLayer(layer="mark", name="PEN")]
    if shared:
        shop += [FileLayer(layer="cut-hole", name="CUT"), FileLayer(layer="lead", name="CUT")]
        shop += [FileLayer(layer="text", name="PEN")]
    cut = cutting(dxf_version=version, lead_in_mm=3.0)
    write_sheet_dxf(LAYOUT, cut, tmp_path / "ours.dxf")
    write_sheet_dxf(LAYOUT, cut, tmp_path / "shop.dxf", layers=shop)
    drawing = ezdxf.readfile(tmp_path / "shop.dxf")
    ours_again(drawing, shop)
    found = [entity.dxf.layer for entity in drawing.modelspace()]
    ours = [e.dxf.layer for e in ezdxf.readfile(tmp_path / "ours.dxf").modelspace()]
    assert found == ours


@pytest.mark.parametrize("name", ["Defpoints", "DEFPOINTS", "defpoints"])
def test_a_layer_that_programs_do_not_plot_is_no_name(name: str) -> None:
    """ezdxf makes it in each new drawing, as drawing programs do."""
    drawn = ezdxf.new("R2000").layers
    assert name in drawn
    with pytest.raises(SpecError) as caught:
        FileLayer(layer="cut-outline", name=name)
    (fault,) = caught.value.faults
    assert (fault.key, fault.value) == ("name", name)
    assert FileLayer(layer="mark", name="0").name == "0"
    assert FileLayer(layer="mark", name=f"{name}-1").name == f"{name}-1"
