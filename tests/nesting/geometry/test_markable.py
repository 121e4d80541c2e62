"""Words spelt in letters that have strokes: none is lost or boxed in silence."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.geometry.markable import markable, told
from platewheel.nesting.geometry.stroke_words import has_strokes


@pytest.mark.parametrize(
    ("drawn", "text"),
    [
        ("M8 x 20", "M8 x 20"),
        ("Träger Ø20", "Träger Ø20"),
        ("Maßstab", "Massstab"),
        ("Æther \u2013 \u201cx\u201d", 'AEther - "x"'),
        ("o\u0308l", "öl"),  # an accent behind its letter
        ("ẫ", "a"),  # two above one letter
        ("2½ m²", "2 1/2 m2"),
        ("\ufb01n", "fin"),
        ("a\u00a0b\tc", "a b c"),
        ("\u202ea\x1b[31m\x00b\u200b", "a[31mb"),
    ],
)
def test_words_are_spelt_in_our_letters(drawn: str, text: str) -> None:
    found = markable(drawn)
    assert found.text == text
    assert found.missing == ()


def test_what_is_spelt_otherwise_is_told_once_and_by_name() -> None:
    lines = [markable(words) for words in ("Maß", "Maß", "x\x00", "漢 5", "H")]
    hidden, swapped, lost = told(lines)
    assert "U+0000" in hidden
    assert swapped.endswith("ß by ss")
    assert "漢" in lost
    assert lost.endswith("漢 5")
    assert list(told([markable("Träger 5")])) == []


@given(st.text(max_size=30))
def test_no_letter_is_boxed_and_none_lost_in_silence(words: str) -> None:
    found = markable(words)
    assert all(has_strokes(letter) for letter in found.text)
    if found.text != unicodedata.normalize("NFC", " ".join(words.split(" "))).strip():
        blank = any(letter.isspace() and letter != " " for letter in words)
        assert found.swapped or found.hidden or found.missing or blank
