"""A blank of the script's own, cut along with the wheel's."""

from __future__ import annotations

from collections.abc import Collection

from platewheel.cli.job.job import RESERVED
from platewheel.nesting.drawings.extra import Extra, ExtraPart
from platewheel.nesting.stock.layout import Turns
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.geometry.blank import Blank


def own_part(
    blank: Blank, count: int, turns: Turns, steel: str, taken: Collection[str]
) -> ExtraPart:
    """The part as the job file's own parts are. Raises: SpecError with every fault."""
    if not isinstance(blank, Blank):
        advice = 'Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0)); a drawing is an [[extra]]'
        raise SpecError([Fault("blank", blank, "a Blank", advice)])
    faults = []
    if blank.name in {*taken, *RESERVED}:
        faults.append(Fault("name", blank.name, "a name that no other part has", "my-part"))
    try:
        spec = Extra(
            name=blank.name,
            file=f"{blank.name} (of a script)",
            thickness_mm=blank.thickness_mm,
            count=count,
            turns=turns,
        )
    except SpecError as error:
        faults += error.faults
    if faults:
        raise SpecError(faults)
    return ExtraPart(spec, blank, steel)
