"""Words as they can be marked: in letters that have strokes, others spelt by those or told."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from platewheel.nesting.geometry.stroke_words import has_strokes
from platewheel.parts.base.plain_values import unseen, without_unseen
from platewheel.parts.base.so_many import listed

# What Unicode takes apart into no letter of ours; common practice, no source
SPELT = {
    "ß": "ss",
    "ẞ": "SS",
    "æ": "ae",
    "Æ": "AE",
    "œ": "oe",
    "Œ": "OE",
    "ı": "i",
    "ł": "l",
    "Ł": "L",
    "đ": "d",
    "Đ": "D",
    "ð": "d",
    "Ð": "D",
    "þ": "th",
    "Þ": "Th",
    "‘": "'",
    "’": "'",
    "‚": ",",
    "′": "'",
    "“": '"',
    "”": '"',
    "„": '"',
    "″": '"',
    "‐": "-",
    "‑": "-",
    "–": "-",
    "—": "-",
    "−": "-",
    "⁄": "/",
    "•": "*",
    "·": ".",
    "∅": "Ø",
    "⌀": "Ø",
    "{": "(",
    "}": ")",
    "«": '"',
    "»": '"',
    "μ": "u",
}


@dataclass(frozen=True)
class Markable:
    """Words as they are marked: `swapped` are letters with what is marked for them, `hidden` such
    as are left out for nobody sees them, `missing` those that nothing is marked for."""

    drawn: str
    text: str
    swapped: tuple[tuple[str, str], ...] = ()
    hidden: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()


def markable(words: str) -> Markable:
    """One line of words in letters that have strokes, as far as there are such."""
    blank = "".join(" " if letter.isspace() else letter for letter in words)
    seen = unicodedata.normalize("NFC", without_unseen(blank))
    text = ""
    swapped: dict[str, str] = {}
    missing: dict[str, None] = {}
    for letter in seen:
        spelt = letter if has_strokes(letter) else _spelt(letter)
        if spelt is None:
            missing[letter] = None
            continue
        if spelt != letter:
            swapped[letter] = spelt
        text += spelt
    return Markable(seen.strip(), text.strip(), tuple(swapped.items()), unseen(blank), (*missing,))


def _spelt(letter: str) -> str | None:
    """By other letters: as the table has it, or without accents and by the plain form."""
    plain = "".join(SPELT.get(one, one) for one in unicodedata.normalize("NFKD", letter))
    bare = "".join(one for one in plain if not unicodedata.combining(one))
    if unicodedata.decomposition(letter).startswith("<fraction>"):  # 2 and a half is no 21 halves
        bare = f" {bare}"
    return bare if all(has_strokes(one) for one in bare) else None


def told(lines: Iterable[Markable]) -> Iterator[str]:
    """What of the words is not marked as drawn, each kind once. Words that miss a letter are not
    marked at all: half a word on steel says something else."""
    lines = list(lines)
    hidden = dict.fromkeys(mark for line in lines for mark in line.hidden)
    if hidden:
        yield (
            "marks that cannot be seen left out of the words: "
            f"{listed([f'U+{ord(mark):04X}' for mark in hidden])}"
        )
    swapped = dict.fromkeys(pair for line in lines if not line.missing for pair in line.swapped)
    if swapped:
        pairs = [
            f"{letter} by {spelt}" if spelt else f"{letter} left out" for letter, spelt in swapped
        ]
        yield f"letters that have no strokes of their own are marked otherwise: {listed(pairs)}"
    lost = [line for line in lines if line.missing]
    if lost:
        letters = dict.fromkeys(letter for line in lost for letter in line.missing)
        yield (
            f"words left out, for no letter can be marked for {listed(list(letters))}; draw them "
            f"as lines: {listed([line.drawn for line in lost])}"
        )
