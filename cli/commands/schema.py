"""The schema command: what report.json holds, as JSON Schema."""

from __future__ import annotations

from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes


def schema(
    refit: Annotated[bool, typer.Option("--refit", help="Of the report.json of a refit.")] = False,
) -> None:
    """Print the JSON Schema of report.json."""
    with exit_codes():
        from platewheel.cli.schema.refit import RefitReport
        from platewheel.cli.schema.report import Report
        from platewheel.cli.terminal.show import show_json

        show_json((RefitReport if refit else Report).model_json_schema())
