"""A blank of the script's own, cut along with the wheel's."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from platewheel.nesting.drawings.extra import Extra, ExtraPart
from platewheel.nesting.geometry.markable import markable
from platewheel.nesting.stock.layout import Turns
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.so_many import listed
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.sound_marks import mark_faults


def own_part(
    blank: Blank,
    count: int,
    turns: Turns,
    steel: str,
    taken: Collection[str] = (),
    *,
    finer_than_kerf: bool = False,
) -> ExtraPart:
    """The part as the job file's own parts are; `taken` are names of others. Raises: SpecError
    with every fault."""
    advice = 'Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0)); a drawing is an [[extra]]'
    require_kind("blank", blank, Blank, "a Blank", advice)
    faults = [*name_faults(blank.name, taken), *unmarkable(blank)]
    try:
        spec = Extra(
            name=blank.name,
            file=f"{blank.name} (of a script)",
            thickness_mm=blank.thickness_mm,
            count=count,
            turns=turns,
            finer_than_kerf=finer_than_kerf,
        )
    except SpecError as error:
        faults += error.faults
    if faults:
        raise SpecError(faults)
    return ExtraPart(spec, blank, steel)


def name_faults(name: str, taken: Collection[str]) -> Iterator[Fault]:
    """The fault of a name that another part has; files of some systems know no capitals."""
    if name.lower() in {one.lower() for one in taken}:
        yield Fault("name", name, "a name that no other part has, capitals or not", "my-part")


def unmarkable(blank: Blank) -> Iterator[Fault]:
    """Marks that cannot be made, and words that would be marked otherwise than they are written."""
    if faults := [*mark_faults(blank)]:
        yield from faults
        return
    for i, mark in enumerate(blank.marks):
        if not isinstance(mark, MarkText):
            continue
        found = markable(mark.text)
        if found.swapped or found.hidden or found.missing:
            odd = [*(one for one, _ in found.swapped), *found.missing]
            odd += [f"U+{ord(one):04X}" for one in found.hidden]
            allowed = f"words in letters that have strokes to mark, not {listed(odd)}"
            advice = f'"{found.text}"' if found.text else "a word of Latin letters"
            yield Fault(f"{blank.name}.marks[{i}].text", mark.text, allowed, advice)
