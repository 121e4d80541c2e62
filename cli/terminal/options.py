"""Arguments and options that several commands take."""

from __future__ import annotations

import os
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from platewheel.cli.terminal.exits import REFUSED, tell

ENDS = tuple(mark for mark in (os.sep, os.altsep) if mark)


def file_named(text: str | Path) -> Path:
    """The path of a file to be written; a slash in its end, which `Path` drops, means a folder.

    Raises: typer.Exit where there is one.
    """
    if str(text).endswith(ENDS):
        tell([f"{text}: named as a folder; take the {str(text)[-1]} off its end, or name a file"])
        raise typer.Exit(REFUSED)
    return Path(text)


JobFile = Annotated[Path, typer.Argument(help="Job file (TOML); `platewheel new` writes one.")]
Out = Annotated[Path, typer.Option(help="Folder that the job's folder is put in.")]
Json = Annotated[bool, typer.Option("--json", help="JSON on stdout instead of tables.")]
Seed = Annotated[int, typer.Option(min=0, help="Same seed, same layout.")]

All = Annotated[bool, typer.Option("--all", help="Tell the checks that pass too, and sources.")]
Sources = Annotated[bool, typer.Option("--sources", help="Tell where each limit comes from.")]


class Effort(StrEnum):
    """How long the nest looks; counted in moves, so the same effort gives the same files."""

    quick = "quick"
    normal = "normal"
    thorough = "thorough"


class Segments(StrEnum):
    """Which flange segments to nest."""

    job = "job"
    all = "all"


Work = Annotated[Effort, typer.Option(help="How long the nest looks for room.")]
WhatFits = Annotated[
    bool,
    typer.Option(
        "--what-fits",
        help="With too little stock: the most whole wheels that it holds, instead of a refusal.",
    ),
]
