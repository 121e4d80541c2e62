"""Notes of a ledger are a person's own words, and say nothing to the terminal."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.jobs import run

LEDGER = r"""
[[plate]]
name = "A"
note = "\u001b[31mupper\u202e rack\nleft"
thickness_mm = 6
width_mm = 1250
length_mm = 2500
"""


@pytest.mark.parametrize("width", ["60", "120"])
def test_a_note_s_hidden_marks_are_not_printed(
    own_folder: Path, width: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", width)
    Path("stock.toml").write_text(LEDGER, encoding="utf-8")
    told = run("stock", "list").stdout
    assert "upper" in told
    assert "left" in told
    assert [mark for mark in told if not mark.isprintable() and mark != "\n"] == []
