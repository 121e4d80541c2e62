"""What must hold of [gauges]: one of them asked for; where they are cut, of a plate in stock."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from platewheel.parts.base.faults import Fault
from platewheel.parts.gauges.spec import KINDS, GaugesSpec


def unasked_faults(given: Mapping[str, object]) -> Iterator[Fault]:
    """Faults of the section as it is `given` in the file."""
    if not any(kind in given for kind in KINDS):
        asked = f"one or more of {', '.join(KINDS)}"
        yield Fault("gauges", "none asked for", asked, f"{KINDS[0]} = true, or no section [gauges]")


def plate_faults(spec: GaugesSpec, steel: str, in_stock_mm: Collection[float]) -> Iterator[Fault]:
    """Faults of the plate that the gauges are cut from, beside the thicknesses in stock."""
    if not spec.any_wanted or spec.thickness_mm in in_stock_mm:
        return
    here = [f"{mm:g}" for mm in sorted(set(in_stock_mm))]
    yield Fault(
        "gauges.thickness_mm",
        spec.thickness_mm,
        f"a thickness of {steel} in stock: {', '.join(here) or 'there is none'}",
        f"thickness_mm = {here[0]}" if here else f"a [[stock]] of {steel}, or gauges.steel",
    )
