"""Words in a DXF file: what nobody sees does not get into it."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import pytest

from platewheel.nesting.files.write_dxf import write_blank_dxf
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.outline import Circle


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_no_hidden_mark_gets_into_a_file(version: str, tmp_path: Path) -> None:
    words = "\u202eTr\u00e4\x1b[31mger\x00\n0\nEOF"
    marks = (MarkText((0.0, 0.0), words, 6.0),)
    blank = Blank("lid\x07", "extra", 6.0, Circle((0.0, 0.0), 40.0), (), marks)
    path = tmp_path / "lid.dxf"
    write_blank_dxf(blank, path, version)  # type: ignore[arg-type]
    raw = path.read_bytes()
    assert not [one for one in (b"\x00", b"\x1b", b"\x07", b"U+202e", b"U+0000") if one in raw]
    told = [one.dxf.text for one in ezdxf.readfile(path).modelspace().query("TEXT")]
    assert told[:2] == ["Tr\u00e4[31mger0EOF", "lid, 6 mm"]
