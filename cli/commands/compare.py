"""The compare command: two job files side by side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes
from platewheel.cli.terminal.options import Json

if TYPE_CHECKING:
    from platewheel.cli.compare.run import Assess


def compare(
    a: Annotated[Path, typer.Argument(metavar="A", help="Job file, called A in the tables.")],
    b: Annotated[Path, typer.Argument(metavar="B", help="Job file, called B in the tables.")],
    quick: Annotated[
        bool, typer.Option(help="Without the stress analysis: no load rating, no payload.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Two jobs side by side: keys, checks, load, plates and cost, and which is better where."""
    from platewheel.cli.compare.run import compare_jobs, read_both, require_stock_of_both
    from platewheel.cli.terminal.compare import comparison_table, show_comparison
    from platewheel.cli.terminal.show import show_json, steps

    with exit_codes():
        jobs = read_both((a, b))
        with steps() as step:
            found = compare_jobs(*jobs, step, None if quick else _analysis())
        if as_json:
            show_json(comparison_table(found))
        else:
            show_comparison(found, (a, b))
        require_stock_of_both(found, (a, b))


def _analysis() -> Assess:
    from platewheel.parts.rating.assess import assess

    return assess
