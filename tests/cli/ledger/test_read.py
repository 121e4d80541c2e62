"""A ledger read and written: each fault by its line, the file untouched, the same pieces back."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.ledger.keep import HEAD, START, changed, ledger_toml
from platewheel.cli.ledger.piece import Ledger, Piece
from platewheel.cli.ledger.read import read_ledger
from platewheel.nesting.stock.piece_name import as_called
from platewheel.parts.base.faults import SpecError

RACK = """\
# the rack behind the door
[[plate]]
name = "P 1"
thickness_mm = 6
width_mm = 1250
length_mm = 2500

[[offcut]]
name = "corner"
thickness_mm = 6
outline = [
  [0, 0], [600, 0],
  [600, 400], [0, 400],
]
state = "reserved"
job = "pond-line"

[[round]]
name = "axle steel"
diameter_mm = 40
length_mm = 3000
note = "bent at one end"
"""


def written(folder: Path, text: str | bytes) -> Path:
    path = folder / "stock.toml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def faults(path: Path) -> list[str]:
    before = path.read_bytes()
    with pytest.raises(SpecError) as error:
        read_ledger(path)
    with pytest.raises(SpecError):
        changed(path, lambda ledger: ledger)
    assert path.read_bytes() == before
    return [str(fault) for fault in error.value.faults]


def test_what_is_written_is_read_back(tmp_path: Path) -> None:
    ledger = read_ledger(written(tmp_path, RACK))
    assert [(p.kind, p.name, p.state, p.job) for p in ledger.pieces] == [
        ("plate", "P 1", "free", None),
        ("offcut", "corner", "reserved", "pond-line"),
        ("round", "axle steel", "free", None),
    ]
    again = read_ledger(written(tmp_path, ledger_toml(ledger)))
    assert again == ledger
    assert again.pieces[2].note == "bent at one end"


def test_the_ledger_to_start_from_is_sound(tmp_path: Path) -> None:
    assert len(read_ledger(written(tmp_path, HEAD + START)).pieces) == 1


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("width_mm = 1250", "width_mm = -1", 5, "width_mm: a number above 0"),
        ("width_mm = 1250", "widht_mm = 1250", 2, "width_mm"),
        ("width_mm = 1250", "width_mm = 1250\nremark = 3", 6, "length_mm, price, state, job, job"),
        ("note =", "notes =", 22, "did you mean note?"),
        ("width_mm = 1250", "width_mm = 1250\ncount = 3", 6, "each piece has a name"),
        ('name = "corner"', 'name = "p1"', 9, "stock.toml:3 has it too"),
        ('name = "corner"\n', "", 8, "name"),
        ('job = "pond-line"', "", 8, "job"),
        ('state = "reserved"\n', "", 15, "none beside state free"),
        ('state = "reserved"', 'state = "lent"', 15, '"free" | "reserved"'),
        ("[600, 400], [0, 400]", "[0, 400], [600, 400]", 11, "crossing"),
        ("[[round]]", "[[rod]]", 18, "[[round]]"),
        ("[[round]]", "[round]", 18, "[[round]]"),
        ("diameter_mm = 40", "diameter_mm = ", 20, "TOML"),
        ("length_mm = 3000", 'length_mm = 3000\nname = "twice"', 22, "TOML"),
    ],
)
def test_a_fault_is_told_by_its_line(
    tmp_path: Path, old: str, new: str, line: int, words: str
) -> None:
    assert RACK.count(old) == 1
    found = faults(written(tmp_path, RACK.replace(old, new)))
    assert any(f.startswith(f"{tmp_path / 'stock.toml'}:{line}: ") and words in f for f in found)
    assert all("; try: " in fault for fault in found)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (RACK[: RACK.index("[600, 400]")], ":13: "),  # torn off
        (b"\n\n\xff\xfe", ":3: found 'bytes that are not UTF-8"),
        ("x = " + "[" * 5000, ":1: "),
        (
            RACK.replace("= 40", "= -40").replace("[[round]]", f"{300_000 * ' '}\n[[round]]"),
            ":21: ",
        ),
        ("plate = 3", ":1: "),
        ("plate = [3]", ":1: "),
    ],
    ids=["torn", "no-utf8", "deep", "blanks", "number", "numbers"],
)
def test_a_damaged_file_is_refused_and_left(tmp_path: Path, data: str | bytes, words: str) -> None:
    assert any(words in fault for fault in faults(written(tmp_path, data)))


def test_no_ledger_there(tmp_path: Path) -> None:
    for path, words in ((tmp_path, "a folder"), (tmp_path / "none.toml", "No such file")):
        with pytest.raises(SpecError, match="platewheel stock new") as error:
            read_ledger(path)
        assert words in str(error.value)


@pytest.mark.parametrize("other", ["Corner 1", "corner1", " CORNER\t1 ", "ｃorner 1"])
def test_names_are_compared_as_people_do(other: str) -> None:
    assert as_called(other) == as_called("corner 1")
    assert as_called(other) != as_called("corner-1")


numbers = st.floats(0.5, 900).map(lambda x: float(f"{x:.12g}"))
names = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1, max_size=20)
state = st.sampled_from(["reserved", "used", "coming"])


@given(
    st.lists(
        st.tuples(names, numbers, state, names), max_size=6, unique_by=lambda x: as_called(x[0])
    )
)
def test_any_names_and_sizes_come_back(rows: list[tuple[str, float, str, str]]) -> None:
    pieces = tuple(
        Piece("bar", name, {"width_mm": mm, "thickness_mm": 8.0, "length_mm": mm}, what, job, job)  # type: ignore[arg-type]
        for name, mm, what, job in rows
    )
    table = tomllib.loads(ledger_toml(Ledger(Path("stock.toml"), pieces)))
    assert [
        (row["name"], row["width_mm"], row["state"], row["job"], row["job_file"])
        for row in table.get("bar", [])
    ] == [(name, mm, what, job, job) for name, mm, what, job in rows]
