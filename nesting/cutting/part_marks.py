"""What is marked on each part of a plate: the blank's own marks, its name and number as strokes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.cutting.on_steel import lines_of, marks_on_steel, on_steel
from platewheel.nesting.cutting.part_cuts import PartCuts
from platewheel.nesting.cutting.part_text import (
    fitted_words,
    least_marked_mm,
    own_words,
    text_place,
    words_clear_mm,
)
from platewheel.nesting.geometry.stroke_words import Stroke, word_strokes
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Placement
from platewheel.nesting.stock.small_holes import least_hole
from platewheel.parts.base.so_many import listed, noun, so_many
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Line, moved, moved_point, segments

DOT = "."  # behind a number that stands alone: 6 is not 9 then


@dataclass(frozen=True)
class PartMarks:
    """On one part, where it lies on the plate: marks, words as strokes, words to read alone."""

    marks: tuple[Mark, ...]
    strokes: tuple[Stroke, ...]
    words: tuple[MarkText, ...]


@dataclass(frozen=True)
class SheetMarks:
    """All parts in the order of their cuts, and what could not be had as wanted, in words."""

    parts: tuple[PartMarks, ...]
    warnings: tuple[str, ...]


def sheet_marks(parts: Sequence[PartCuts], cutting: Cutting) -> SheetMarks:
    """Marks of a plate's parts. No mark lies in a hole, or beside its part."""
    digits = "0" * len(str(len(parts)))  # every number of the plate fits the same place
    return SheetMarks(
        tuple(_part_marks(part, digits, cutting) for part in parts),
        tuple(_warnings([part.placement.blank for part in parts], digits, cutting)),
    )


def _part_marks(part: PartCuts, digits: str, cutting: Cutting) -> PartMarks:
    placement = part.placement
    blank = placement.blank
    marks = [_placed(mark, placement) for mark in marks_on_steel(blank)]
    place = _stroke_place(blank, digits, cutting) if cutting.mark_names else None
    strokes: tuple[Stroke, ...] = ()
    if place is not None:
        label = _placed_words(_numbered(place, part.number), placement)
        strokes = word_strokes(label.text, label.at, label.height_mm, label.turn_deg)
    else:  # for reading alone
        place = _read_place(blank, digits)
    for word in _marked_words(blank, cutting):
        if word is not None and not (strokes and word.text == blank.name):
            own = _placed_words(word, placement)
            strokes += word_strokes(own.text, own.at, own.height_mm, own.turn_deg)
    words = [mark for mark in own_words(blank) if place is None or mark.text != blank.name]
    if place is not None:
        words.append(_numbered(place, part.number))
    read = [_placed_words(mark, placement) for mark in words] if cutting.text_marks else []
    return PartMarks(tuple(marks), strokes, tuple(read))


def _marked_words(blank: Blank, cutting: Cutting) -> tuple[MarkText | None, ...]:
    """Words that are marked beside name and number: what a user's drawing has marked, and which
    gauge it is. Those of the wheel's blanks help to bend and weld: they are read on the plan."""
    wanted = blank.kind == "extra" or (blank.kind == "gauge" and cutting.mark_names)
    if not wanted:
        return ()
    return fitted_words(blank, words_clear_mm(cutting), least_marked_mm(cutting))


def _stroke_place(blank: Blank, digits: str, cutting: Cutting) -> MarkText | None:
    """Where name and number, or else the number alone, go in letters as small as the marker
    writes, or larger; the text is what comes before the number."""
    drilled = least_hole(cutting, blank.thickness_mm)
    for name in (f"{blank.name} ", ""):
        word = name + digits if name else digits + DOT
        place = text_place(blank, word, words_clear_mm(cutting), drilled)
        if place is not None and place.height_mm >= least_marked_mm(cutting):
            return replace(place, text=name)
    return None


def _read_place(blank: Blank, digits: str) -> MarkText | None:
    """Place of name and number in letters of any size."""
    name = f"{blank.name} "
    place = text_place(blank, name + digits)
    return None if place is None else replace(place, text=name)


def _numbered(place: MarkText, number: int) -> MarkText:
    return replace(place, text=f"{place.text}{number}" if place.text else f"{number}{DOT}")


def _warnings(blanks: Sequence[Blank], digits: str, cutting: Cutting) -> Iterator[str]:
    once = list(dict.fromkeys(blanks))
    if cutting.mark_names:
        places = [(b.name, _stroke_place(b, digits, cutting)) for b in once]
        letters = f"in letters of {least_marked_mm(cutting):g} mm"
        if short := [name for name, place in places if place and not place.text]:
            yield f"no room to mark the name {letters}, the number alone: {', '.join(short)}"
        if bare := [name for name, place in places if place is None]:
            yield f"no room to mark name or number {letters}: {', '.join(bare)}"
    for blank in once:
        marked, least = _marked_words(blank, cutting), least_marked_mm(cutting)
        left = [w for w, one in zip(own_words(blank), marked, strict=False) if not one]
        if low := [word.text for word in left if word.height_mm < least]:
            yield (
                f"{blank.name}: words drawn lower than {least:g} mm, the least that is marked, are "
                f"left out: {listed(low)}"
            )
        if tight := [word.text for word in left if word.height_mm >= least]:
            yield (
                f"{blank.name}: no room on the steel to mark its words in letters of "
                f"{least:g} mm: {listed(tight)}"
            )
        lost = [mark for mark in lines_of(blank) if on_steel(mark, blank) != (mark,)]
        if lost and blank.kind == "extra":  # the wheel's own have centres there by design
            lies = noun(len(lost), "lies", "lie")
            yield (
                f"{blank.name}: {len(lost)} of {so_many(len(lines_of(blank)), 'mark')} {lies} in a "
                f"hole that is cut or beside the part, or {noun(len(lost), 'runs', 'run')} there: "
                "marked on the steel alone"
            )


def _placed_words(mark: MarkText, placement: Placement) -> MarkText:
    turn = placement.rotation_deg
    at = moved_point(mark.at, placement.x_mm, placement.y_mm, turn)
    return replace(mark, at=at, turn_deg=mark.turn_deg + turn)


def _placed(mark: MarkPoint | Line | Arc, placement: Placement) -> Mark:
    """A mark turned and moved with its part."""
    x, y, turn = placement.x_mm, placement.y_mm, placement.rotation_deg
    if isinstance(mark, MarkPoint):
        return MarkPoint(moved_point(mark.at, x, y, turn))
    (segment,) = segments(moved((mark,), x, y, turn))
    return segment
