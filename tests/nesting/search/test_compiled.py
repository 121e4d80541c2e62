"""Compiled functions and their copy on disk: damaged or out of reach, it stops nothing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from platewheel.nesting.search import compiled


def doubled() -> Any:
    """A function, compiled as in a run of its own."""

    def twice(x: int) -> int:
        return 2 * x

    return compiled.leaf(twice)


def copies(place: Path) -> list[Path]:
    return sorted(place.rglob("*.nb?"))


def emptied(copy: Path) -> None:
    copy.write_bytes(b"")


def halved(copy: Path) -> None:
    copy.write_bytes(copy.read_bytes()[: copy.stat().st_size // 2])


def made_a_folder(copy: Path) -> None:
    """As unreadable, and unwritable, as on a broken disk."""
    copy.unlink()
    copy.mkdir()


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(compiled, "PLACE", str(tmp_path))
    assert doubled()(21) == 42
    assert len(copies(tmp_path)) == 2
    return tmp_path


def test_the_copy_is_used(place: Path) -> None:
    again = doubled()
    assert again(4) == 8
    assert sum(again.stats.cache_hits.values()) == 1


@pytest.mark.parametrize("which", [".nbi", ".nbc"])
@pytest.mark.parametrize("damage", [emptied, halved])
def test_a_damaged_copy_is_made_anew(
    place: Path, which: str, damage: Callable[[Path], None]
) -> None:
    for copy in copies(place):
        if copy.suffix == which:
            damage(copy)
    assert doubled()(3) == 6
    again = doubled()
    assert again(5) == 10
    assert sum(again.stats.cache_hits.values()) == 1


def test_a_copy_that_cannot_be_kept_is_done_without(place: Path) -> None:
    for copy in copies(place):
        made_a_folder(copy)
    assert doubled()(3) == 6


@pytest.mark.parametrize("nowhere", ["", "/dev/null/none"])
def test_without_a_place_nothing_lies_beside_the_sources(
    nowhere: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compiled, "PLACE", nowhere)
    assert doubled()(3) == 6
    assert [one for one in copies(Path(__file__).parent) if "twice" in one.name] == []
