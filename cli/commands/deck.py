"""The command for a second opinion: the wheel as a 3-D finite element deck for other solvers."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import exit_codes, tell_file
from platewheel.cli.terminal.options import JobFile, Json


class Over(StrEnum):
    """What the patch stands over."""

    vent = "vent"
    web = "web"


def deck(
    job_file: JobFile,
    out: Annotated[
        Path, typer.Option("--out", "-o", help="Folder that the deck's folder is put in.")
    ] = Path("out"),
    over: Annotated[
        Over, typer.Option(help="The patch over a vent, or over the web between two.")
    ] = Over.vent,
    coarse: Annotated[
        float,
        typer.Option(
            min=0.4, max=4.0, help="Size of elements over the plates' thickness; 1 is good."
        ),
    ] = 1.0,
    as_json: Json = False,
) -> None:
    """Write the wheel as a 3-D finite element deck (.inp), to check the rating by other means."""
    from platewheel.cli.job.job import read_job
    from platewheel.cli.output.folder import DECK_OURS, require_ours, write_folder
    from platewheel.cli.terminal.show import show_json, steps
    from platewheel.parts.deck.deck import as_drawn, wheel_deck
    from platewheel.parts.deck.expected import head
    from platewheel.parts.rating.assess import assess
    from platewheel.parts.rating.unrated import unrated

    with exit_codes():
        job = read_job(job_file)
        name = f"{job.head.name}-deck"
        require_ours(out, name, DECK_OURS)
        with steps() as step:
            step("mesh")
            drawn = as_drawn(job.setting)
            made = wheel_deck(drawn, over=over.value, coarse=coarse)
            step("stress analysis")
            found = assess(drawn)
            told = head(drawn, made, job.head.name, found, unrated(drawn))

            def write(folder: Path) -> None:
                text = "\n".join(made.lines(told)) + "\n"
                (folder / "wheel.inp").write_text(text, encoding="utf-8")
                (folder / "README.txt").write_text("\n".join(told) + "\n", encoding="utf-8")

            write_folder(out, name, write, DECK_OURS)
        mesh = made.mesh
        if as_json:
            show_json(
                {
                    "nodes": len(mesh.points),
                    "elements": len(mesh.tets),
                    "load_n": made.load_n,
                    "push_n": made.push_n,
                    "files": ["README.txt", "wheel.inp"],
                }
            )
        else:
            typer.echo(f"{len(mesh.points)} nodes, {len(mesh.tets)} elements: written to")
            tell_file(out / name / "wheel.inp")
