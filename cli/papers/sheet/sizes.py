"""Sizes on the job sheet: the wheel as the job gives it, its parts, its blanks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from platewheel.cli.schema.report import BlankRow, PartRow, Report
from platewheel.cli.words.phrases import Name, Phrase, Sentence, listed, phrase
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Angle, Count, Length, Mass, Quantity, Value
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.wheel.hub_disc import DISC
from platewheel.parts.wheel.spec import WheelSpec

WHEEL = (
    Column("what", "What it is", Sentence),
    Column("value", "Value", Length, bare=True),
)
PARTS = (
    Column("part", "Part", Name),
    Column("each", "A wheel", Count, "number"),
    Column("in_all", "In all", Count, "number"),
    Column("mass", "kg each", Mass, "number", bare=True),
    Column("mass_in_all", "kg in all", Mass, "number", bare=True),
    Column("solid", "Solid", Name),
)
NAMES = {
    "length_mm": "length",
    "width_mm": "width",
    "diameter_mm": "dia",
    "hub_hole_diameter_mm": "hub hole dia",
    "inner_radius_mm": "inner radius",
    "outer_radius_mm": "outer radius",
}


def wheel_table(wheel: WheelSpec, units: Units) -> Table:
    """Every dimension of the wheel as the job gives it, welds and clearances too."""

    def value(key: str) -> Value:
        given = getattr(wheel, key)
        if key.endswith("_mm") and given is not None:
            return Length(given, "" if units == "mm" else ".2f", "rule")
        return Name(f"{given}")

    return table(
        WHEEL,
        (
            {"what": Sentence(field.description or ""), "value": value(key)}
            for key, field in type(wheel).model_fields.items()
        ),
    )


def parts_table(parts: Iterable[PartRow], wheels: int) -> Table:
    """Parts of a wheel, and of all."""
    return table(
        PARTS,
        (
            {
                "part": Name(part.name),
                "each": Count(part.count_per_wheel),
                "in_all": Count(part.count_per_wheel * wheels),
                "mass": Mass(part.mass_kg, ".3f"),
                "mass_in_all": Mass(part.mass_kg * part.count_per_wheel * wheels),
                "solid": Name(part.step),
            }
            for part in parts
        ),
    )


def blanks_table(blanks: Iterable[BlankRow], units: Units, full_size: Mapping[str, str]) -> Table:
    """Blanks to cut, with their sizes; `full_size` as the function of that name has it."""
    columns = (
        Column("blank", "Blank", Name),
        Column("thick", "Thick", Length, "number"),
        Column("steel", "Steel", Name),
        Column("count", "Count", Count, "number"),
        Column("sizes", "Sizes, mm" if units == "mm" else "Sizes", Phrase, bare=True),
        Column("area", "cm2", Quantity, "number", bare=True),
        Column("drawing", "Drawing", Name),
        Column("paper", "Full size", Name),
    )
    return table(
        columns,
        (
            {
                "blank": Name(blank.name),
                "thick": Length(blank.thickness_mm, "g", "rule"),
                "steel": Name(blank.steel),
                "count": Count(blank.count),
                "sizes": listed(_sizes(blank, units)),
                "area": Quantity(blank.area_mm2 / 100, ".1f", "cm2"),
                "drawing": Name(blank.file),
                "paper": Name(full_size[blank.name]) if blank.name in full_size else None,
            }
            for blank in blanks
        ),
    )


def full_size(report: Report) -> dict[str, str]:
    """By a blank's name the paper that shows it in full size."""
    pages = {row.file: row.pages for row in report.templates}
    shared = "templates/small-parts.pdf"
    found = {}
    for blank in report.blanks:
        own = f"templates/{Path(blank.file).stem}.pdf"
        if own in pages:
            found[blank.name] = f"{own}, {so_many(pages[own], 'page')}"
        elif shared in pages:
            found[blank.name] = shared
    return found


def full_size_words(report: Report) -> str:
    """How to print those papers, and which more there are."""
    stems = {f"templates/{Path(blank.file).stem}.pdf" for blank in report.blanks}
    more = [
        f"{row.file}, {so_many(row.pages, 'page')}"
        for row in report.templates
        if row.file not in stems
    ]
    words = "Papers of full size: print at 100 %, fit-to-page off, and measure the check bars."
    return f"{words} Besides: {'; '.join(more)}." if more else words


def _sizes(row: BlankRow, units: Units) -> Iterator[str | Phrase]:
    for key, name in NAMES.items():
        if mm := getattr(row, key):
            yield phrase(f"{name} ", Length(mm, ".1f", "rule"))
    if row.sweep_deg:
        yield f"sweep {Angle(row.sweep_deg).told(units)}"
    if row.vent_count and row.vent_diameter_mm and row.vent_circle_mm:
        form = "g" if units == "mm" else ".1f"
        size, circle = (
            Length(mm, form, "rule") for mm in (row.vent_diameter_mm, row.vent_circle_mm)
        )
        yield phrase(f"{so_many(row.vent_count, 'vent')} dia ", size, " on ", circle, " circle")
    if row.drawing:
        what = "disc" if row.kind == DISC.name else "part"
        yield f"your own {what}, from {row.drawing}"
