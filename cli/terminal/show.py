"""What the terminal shows: progress on stderr when a person watches, tables, JSON."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from platewheel.cli.terminal.exits import quiet
from platewheel.cli.terminal.width import NARROW, PIPED, columns, folded, row_blocks
from platewheel.cli.words.by_hand import hand_words
from platewheel.cli.words.figures import over_words, payload_words, web_words
from platewheel.cli.words.plates import lengths_table, plates_table
from platewheel.cli.words.table import Table
from platewheel.cli.work.progress import Steps
from platewheel.cli.work.stopping import undisturbed
from platewheel.parts.base.so_many import so_many


@contextmanager
def steps() -> Iterator[Steps]:
    """A line with a spinner on a terminal; nothing when stderr is piped."""
    from rich.console import Console

    console = Console(stderr=True)
    if not console.is_terminal:
        yield lambda text: None
        return
    status = console.status("")

    def told(text: str) -> None:
        with undisturbed():  # half of it done, the other half fails
            status.update(text)
            status.start()  # a thread: work on other cores is begun before the first step is told

    try:
        yield told
    finally:
        with undisturbed():
            status.stop()


def say(line: str) -> None:
    """A line on stdout, folded on a terminal or where COLUMNS asks for it, as tables are; without
    what a terminal would act upon."""
    width = columns(sys.stdout, asked=True)
    print("\n".join(folded(line if width is None else quiet(line), width)))


def show_table(title: str, table: Table) -> None:
    """Table on stdout, in mm; cells are plain text. A row a block on a narrow terminal."""
    width = columns(sys.stdout, asked=True)
    rows = [["\n".join(map(quiet, c.split("\n"))) for c in row] for row in table.cells("mm")]
    if width is not None and width < NARROW and len(table.columns) > 2:
        print("\n".join(folded(title, width)))
        for line in row_blocks(table.heads(short=True), rows, width):
            print(line)
        return
    from rich.console import Console
    from rich.table import Table as Drawn
    from rich.text import Text

    drawn = Drawn(title=title, title_justify="left", show_edge=False)
    for head in table.heads(short=True):
        drawn.add_column(head, overflow="fold")
    for cells in rows:
        drawn.add_row(*(Text(cell) for cell in cells))
    Console(width=width or PIPED).print(drawn)


def show_json(value: Any) -> None:
    """Indented JSON on stdout; null where a number has no bound, as in the files."""
    from pydantic_core import to_json

    sys.stdout.write(to_json(value, indent=2, inf_nan_mode="null").decode() + "\n")


def show_rating(found: Any) -> None:
    """What the wheel carries, in one line."""
    if found is None:
        return
    governs = found.least.governs
    say(
        f"rated wheel load {found.least.load_n:.0f} N (the heaviest wheel at a joint), "
        f"{found.least.state}: {governs.name}, {governs.where}; " + payload_words(found.payload_kg)
    )


def show_sheets(sheets: Sequence[Any], nesting: Any, lengths: Sequence[Any]) -> None:
    """The tables of plates and lengths, and the sums."""
    plates = plates_table(sheets)
    show_table("Plates", plates.only("file", "stock", "repeat", "blanks", "scrap"))
    if lengths:
        cuts = lengths_table(lengths)
        show_table("Lengths", cuts.only("stock", "length", "repeat", "pieces", "rest"))
    for bound in nesting.bounds:
        told = (
            "proved the least" if bound.proved_least else f"at least {bound.least_sheets} by area"
        )
        whole = so_many(bound.sheets_used, "whole plate")
        say(f"{bound.thickness_mm:g} mm: {whole}, {told}")
    setup = f", setting up {nesting.setup_hours:.1f} h" if nesting.setup_hours else ""
    work = (
        hand_words(nesting.by_hand)
        if nesting.by_hand
        else f"{nesting.cut_length_mm / 1000:.1f} m, {so_many(nesting.pierces or 0, 'pierce')}, "
        f"{nesting.rapid_length_mm / 1000:.1f} m of travel"
    )
    say(
        f"{so_many(nesting.sheets_used, 'plate')}, scrap {nesting.scrap_percent:.1f} %, after "
        f"offcuts {nesting.scrap_percent_after_offcuts:.1f} %, cutting "
        f"{nesting.cutting_hours:.1f} h: {work}{setup}"
    )
    if not nesting.by_hand:
        say(web_words(nesting.web_mm, nesting.edge_web_mm))
    for sheet in sheets:
        if sheet.travels_over_cut_parts:
            say(f"{sheet.file}: {over_words(sheet.travels_over_cut_parts)}")
