"""What the terminal shows: progress on stderr when a person watches, tables, JSON."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from platewheel.cli.words.figures import check_cells, counted, payload_words, web_words
from platewheel.cli.work.progress import Steps


@contextmanager
def steps() -> Iterator[Steps]:
    """A line with a spinner on a terminal; nothing when stderr is piped."""
    from rich.console import Console

    console = Console(stderr=True)
    if not console.is_terminal:
        yield lambda text: None
        return
    with console.status("starting") as status:
        yield lambda text: status.update(text)


def show_table(title: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Table on stdout; cells are plain text."""
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    table = Table(title=title, title_justify="left", show_edge=False)
    for head in heads:
        table.add_column(head, overflow="fold")
    for row in rows:
        table.add_row(*(Text(cell) for cell in row))
    width = None if sys.stdout.isatty() else 160
    Console(width=width).print(table)


def show_json(value: Any) -> None:
    """Indented JSON on stdout; null where a number has no bound, as in the files."""
    from pydantic_core import to_json

    sys.stdout.write(to_json(value, indent=2, inf_nan_mode="null").decode() + "\n")


def show_checks(results: Sequence[Any]) -> None:
    """The table of checks, worst first."""
    rows = [check_cells(row) for row in results]
    show_table("Checks", ("verdict", "check", "value", "limit", "says", "source"), rows)


def show_rating(found: Any) -> None:
    """What the wheel carries, in one line."""
    if found is None:
        return
    governs = found.least.governs
    print(
        f"rated wheel load {found.least.load_n:.0f} N (static x unevenness x shock), "
        f"{found.least.state}: {governs.name}, {governs.where}; " + payload_words(found.payload_kg)
    )


def show_sheets(sheets: Sequence[Any], nesting: Any, lengths: Sequence[Any]) -> None:
    """The tables of plates and lengths, and the sums."""
    rows = []
    for sheet in sheets:
        content = counted(p.blank for p in sheet.placements)
        rows.append(
            (sheet.file, sheet.stock, str(sheet.repeat), content, f"{sheet.scrap_percent:.1f} %")
        )
    show_table("Plates", ("file", "plate", "cut", "blanks", "scrap"), rows)
    if lengths:
        cuts = [
            (
                row.stock,
                f"{row.stock_length_mm:g}",
                str(row.repeat),
                ", ".join(f"{n} {name}" for name, n in row.pieces.items()),
                f"{row.rest_mm:.0f}",
            )
            for row in lengths
        ]
        show_table("Lengths", ("from", "mm", "cut", "pieces", "rest mm"), cuts)
    for bound in nesting.bounds:
        told = (
            "proved the least" if bound.proved_least else f"at least {bound.least_sheets} by area"
        )
        print(f"{bound.thickness_mm:g} mm: {bound.sheets_used} bought, {told}")
    print(
        f"{nesting.sheets_used} plates, scrap {nesting.scrap_percent:.1f} %, after offcuts "
        f"{nesting.scrap_percent_after_offcuts:.1f} %, cutting {nesting.cutting_hours:.1f} h: "
        f"{nesting.cut_length_mm / 1000:.1f} m, {nesting.pierces} pierces, "
        f"{nesting.rapid_length_mm / 1000:.1f} m of travel"
    )
    print(web_words(nesting.web_mm, nesting.edge_web_mm))
