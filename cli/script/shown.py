"""How a result shows itself: tables as text, and as HTML in a notebook."""

from __future__ import annotations

from io import StringIO
from shutil import get_terminal_size

from platewheel.cli.words.table import Table
from platewheel.parts.base.units import Units

LEAST_WIDTH = 60
Titled = tuple[tuple[str, Table], ...]


class Shown:
    """A result with tables: `print(result)` for a terminal, itself as the last line of a cell."""

    units: Units = "mm"

    def lines(self) -> tuple[str, ...]:
        """What is said above the tables."""
        return ()

    def tables(self) -> Titled:
        """Titles and tables, in the order in which they are shown."""
        return ()

    def __str__(self) -> str:
        parts = [*self.lines(), *(_text(*one, self.units) for one in self.tables())]
        return "\n".join(parts)

    def _repr_html_(self) -> str:
        from platewheel.cli.papers.html.render import render

        units = self.units
        return render("shown.html", units, lines=self.lines(), tables=self.tables())


def _text(title: str, table: Table, units: Units) -> str:
    """The table in so many columns as the terminal has."""
    from rich.console import Console
    from rich.table import Table as Drawn
    from rich.text import Text

    drawn = Drawn(title=title, title_justify="left", show_edge=False)
    for head in table.heads(short=True):
        drawn.add_column(Text(head), overflow="fold")
    for cells in table.cells(units):
        drawn.add_row(*map(Text, cells))
    file = StringIO()
    width = max(LEAST_WIDTH, get_terminal_size((120, 24)).columns)
    plain = Console(file=file, width=width, color_system=None, _environ={})  # odd widths there
    plain.print(drawn)
    return "\n".join(line.rstrip() for line in file.getvalue().splitlines())
