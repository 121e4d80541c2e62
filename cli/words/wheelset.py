"""Tables of a wheelset, for terminal and page alike: sizes, fits, what is sawn from which bar."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.schema.wheelset import WheelsetRow
from platewheel.cli.words.phrases import Name, Phrase, Sentence, phrase
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Count, Length, Lengths, Mass, Value

SIZES = (
    Column("what", "What", Sentence, short="what"),
    Column("size", "Size", Length | Lengths, short="size"),
    Column("of_what", "Of what", Sentence, short="of what"),
)
FITS = (
    Column("where", "Where", Name, short="where"),
    Column("size", "Size", Length, "number", short="size"),
    Column("hole", "Hole", Phrase, short="hole", bare=True),
    Column("shaft", "Shaft", Phrase, short="shaft", bare=True),
)
SAWN = (
    Column("stock", "Bar", Sentence, short="bar"),
    Column("repeat", "Bars", Count, "number", short="bars"),
    Column("pieces", "From each", Phrase, short="from each"),
    Column("rest", "Rest of each", Length, "number", short="rest of each"),
)


def sizes_table(row: WheelsetRow) -> Table:
    """Sizes to make and to set by."""
    return table(SIZES, _sizes(row))


def _sizes(row: WheelsetRow) -> Iterator[Cells]:
    running = f"{row.bearings_each} {row.bearing or row.bush}"
    held = f"wheels {row.wheels}, held by {row.retention}; frames {row.frames}"
    axles = phrase(f"{row.axles} off, {row.steel}, each ", Mass(row.axle_kg, ".2f"))
    yield _size("axle", Length(row.axle_length_mm), axles)
    yield _size("seat of the wheels", Length(row.seat_diameter_mm, "g"), Sentence(held))
    play = phrase("play ", Length(row.play_mm))
    yield _size("back to back", Length(row.back_to_back_mm), play)
    yield _size("bearing centres", Length(row.bearing_centres_mm), Sentence(running))
    for step in row.steps:
        along = Lengths((step.from_mm, step.to_mm), " to ")
        yield _size("axle, along", along, phrase("diameter ", Length(step.diameter_mm, "g")))
    for spacer in row.spacers:
        inside, outside = (Length(mm, ".4g") for mm in (spacer.inside_mm, spacer.outside_mm))
        both = phrase(inside, " inside, ", outside, " outside")
        yield _size(spacer.name, Length(spacer.length_mm), both)


def _size(what: str, size: Value, of_what: Value) -> Cells:
    return {"what": Sentence(what), "size": size, "of_what": of_what}


def fits_table(row: WheelsetRow) -> Table:
    """Fits to turn and ream to, with their sizes; inches to a ten-thousandth beside."""
    return table(
        FITS,
        (
            {
                "where": Name(fit.place),
                "size": Length(fit.size_mm, "g"),
                "hole": _zone(fit.hole, fit.hole_mm),
                "shaft": _zone(fit.shaft, fit.shaft_mm),
            }
            for fit in row.fits
        ),
    )


def _zone(name: str, least_and_most_mm: tuple[float, float]) -> Phrase:
    sizes = Lengths(least_and_most_mm, " to ", ".3f", "micrometer", "number")
    return phrase(f"{name}: ", sizes)


def sawn_table(row: WheelsetRow) -> Table:
    """What is sawn from which bar."""
    return table(
        SAWN,
        (
            {
                "stock": Sentence(cut.stock),
                "repeat": Count(cut.repeat),
                "pieces": phrase(f"{cut.pieces} of ", Length(row.piece_mm, "g")),
                "rest": Length(cut.rest_mm, ".0f"),
            }
            for cut in row.cuts
        ),
    )
