"""Reserved, given back, cut: no piece is two jobs', and what fails leaves no trace."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.ledger.change import cut, give_back, holder_called, holders, reserve, undone
from platewheel.cli.ledger.piece import Holder, Ledger, Piece
from platewheel.cli.work.not_finished import NotFinished

POND, LAKE = Holder("pond", "/shop/pond.toml"), Holder("lake", "/shop/lake.toml")
COPY = Holder("pond", "/other/pond.toml")
SIZES = {"width_mm": 60.0, "thickness_mm": 8.0, "length_mm": 6000.0}


def bar(name: str) -> Piece:
    return Piece("bar", name, SIZES)


def rack(*names: str) -> Ledger:
    return Ledger(Path("stock.toml"), tuple(bar(name) for name in names))


def states(ledger: Ledger) -> dict[str, tuple[str, str | None]]:
    return {p.name: (p.state, p.job) for p in ledger.pieces}


def test_the_life_of_a_piece() -> None:
    held = reserve(rack("A", "B"), POND, [bar("A")], [bar("end")])
    assert states(held) == {
        "A": ("reserved", "pond"),
        "B": ("free", None),
        "end": ("coming", "pond"),
    }
    assert states(cut(held, POND)) == {
        "A": ("used", "pond"),
        "B": ("free", None),
        "end": ("free", None),
    }
    assert give_back(held, POND) == rack("A", "B")
    assert give_back(held, LAKE) == cut(held, LAKE) == held


def test_a_second_job_is_refused_by_who_has_it_however_the_name_is_written() -> None:
    held = reserve(rack("Rest 1"), POND, [bar("Rest 1")], [bar("end")])
    with pytest.raises(NotFinished) as error:
        reserve(held, LAKE, [bar("rest1"), bar("END")])
    first, second = error.value.lines
    assert "job 'pond' of /shop/pond.toml has reserved it (stock.toml)" in first
    assert 'platewheel stock give-back "pond"' in first
    assert "is not cut yet" in second
    with pytest.raises(NotFinished, match="has cut it up"):
        reserve(cut(held, POND), LAKE, [bar("Rest 1")])


def test_a_copy_of_the_job_file_elsewhere_is_another_job() -> None:
    held = reserve(rack("A"), POND, [bar("A")])
    with pytest.raises(NotFinished, match=r"/shop/pond\.toml has reserved it"):
        reserve(held, COPY, [bar("A")])


def test_the_same_job_again_keeps_what_it_needs_and_gives_the_rest_back() -> None:
    first = reserve(rack("A", "B"), POND, [bar("A")], [bar("end")])
    again = reserve(first, POND, [bar("a"), bar("B")], [bar("other end")])
    assert states(again) == {
        "A": ("reserved", "pond"),
        "B": ("reserved", "pond"),
        "other end": ("coming", "pond"),
    }
    assert states(reserve(again, POND, [bar("B")])) == {
        "A": ("free", None),
        "B": ("reserved", "pond"),
    }


def test_pieces_of_a_job_file_are_written_down() -> None:
    held = reserve(rack(), POND, [bar("mine")])
    assert states(held) == {"mine": ("reserved", "pond")}
    with pytest.raises(NotFinished, match=r"gone from stock\.toml"):
        reserve(rack(), POND, [bar("mine")], seen=rack("mine"))
    with pytest.raises(NotFinished, match="has a bar of that name"):
        reserve(rack("mine"), POND, [Piece("offcut", "Mine", {})])


def test_what_another_has_taken_or_changed_since_the_plan_is_to_be_planned_again() -> None:
    """It was free when the plan was made; a piece that was not is told to be given back."""
    seen = rack("A", "B")
    now = reserve(seen, LAKE, [bar("A")])
    with pytest.raises(NotFinished, match=r"lake\.toml has reserved it .* try: run it again"):
        reserve(now, POND, [bar("A")], seen=seen)
    with pytest.raises(NotFinished, match="give-back"):
        reserve(now, POND, [bar("A")], seen=now)
    other = Piece("bar", "B", SIZES | {"length_mm": 5000.0})
    edited = replace(seen, pieces=(seen.pieces[0], other))
    with pytest.raises(NotFinished, match=r"'B': its sizes .* are others now .* run it again"):
        reserve(edited, POND, [bar("B")], seen=seen)
    assert reserve(edited, POND, [bar("A")], seen=seen).piece("A") == bar("A").put("reserved", POND)


def test_a_job_is_called_by_its_name_or_where_two_have_it_by_its_file() -> None:
    ledger = reserve(reserve(rack("A", "B"), POND, [bar("A")]), LAKE, [bar("B")])
    assert holder_called(ledger, "lake") == holder_called(ledger, "/shop/lake.toml") == LAKE
    ledger = reserve(ledger, COPY, [bar("C")])
    assert holder_called(ledger, "/other/pond.toml") == COPY
    for name, words in (("pond", r"2 jobs .* /shop/pond\.toml, /other"), ("mere", "nothing res")):
        with pytest.raises(NotFinished, match=words):
            holder_called(ledger, name)


NAMES = st.lists(st.sampled_from("ABCDE"), unique=True, max_size=4)
JOBS = st.sampled_from([POND, LAKE, COPY])
DEEDS = st.sampled_from(["reserve", "give back", "cut"])


@given(st.lists(st.tuples(DEEDS, JOBS, NAMES, st.lists(st.sampled_from("XYZ"), unique=True))))
def test_no_piece_is_two_jobs_and_undoing_brings_back_what_was(
    deeds: list[tuple[str, Holder, list[str], list[str]]],
) -> None:
    ledger = rack(*"ABCD")
    cut_by: dict[str, Holder] = {}
    for deed, holder, names, ends in deeds:
        before = ledger
        if deed == "reserve":
            barred = [
                p
                for p in before.pieces
                if p.name in names and p.state != "free" and p.holder != holder
            ]
            try:
                ledger = reserve(before, holder, list(map(bar, names)), list(map(bar, ends)))
            except NotFinished:
                assert barred
                continue
            assert not barred
            now = {p.name: p for p in ledger.pieces}
            assert all(now[name].holder == holder for name in names)
            restored = undone(ledger, before, holder)
            assert {p.called: p for p in restored.pieces} == {p.called: p for p in before.pieces}
        elif deed == "give back":
            ledger = give_back(before, holder)
            assert holder not in holders(ledger)
        else:
            ledger = cut(before, holder)
            assert holder not in holders(ledger)
            for p in before.pieces:
                if p.state == "reserved" and p.holder == holder:
                    cut_by[p.name] = holder
        assert len({p.called for p in ledger.pieces}) == len(ledger.pieces)
        used = {p.name: p.holder for p in ledger.pieces if p.state == "used"}
        assert used == cut_by  # steel that was cut up stays cut up


def test_undoing_leaves_what_others_did_meanwhile() -> None:
    before = reserve(rack("A", "B"), POND, [bar("A")], [bar("end")])
    now = reserve(before, POND, [bar("B")], [bar("new end")])
    now = reserve(now, LAKE, [bar("A")])
    assert states(undone(now, before, POND)) == {
        "A": ("reserved", "lake"),
        "B": ("free", None),
        "end": ("coming", "pond"),
    }
