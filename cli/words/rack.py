"""The table of what is on the rack."""

from __future__ import annotations

from platewheel.cli.ledger.piece import Ledger, Piece
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Column, Table, table

RACK = (
    Column("kind", "kind", Name),
    Column("name", "name", Name),
    Column("size", "size, mm", Name),
    Column("state", "state", Name),
    Column("job", "job", Name),
    Column("note", "note", Name),
)


def rack_table(ledger: Ledger) -> Table:
    """A row a piece, in the order of the file."""
    return table(
        RACK,
        (
            {
                "kind": Name(piece.kind),
                "name": Name(piece.name),
                "size": Name(_size(piece)),
                "state": Name(piece.state),
                "job": Name(piece.job or ""),
                "note": Name(piece.note or ""),
            }
            for piece in ledger.pieces
        ),
    )


def _size(piece: Piece) -> str:
    row = piece.spec
    if piece.kind == "plate":
        return f"{row.width_mm:g} x {row.length_mm:g} x {row.thickness_mm:g} {row.steel}"
    if piece.kind == "offcut":
        sides = [max(axis) - min(axis) for axis in zip(*row.outline, strict=True)]
        return f"in {sides[1]:g} x {sides[0]:g} x {row.thickness_mm:g} {row.steel}"
    if piece.kind == "bar":
        return f"{row.width_mm:g} x {row.thickness_mm:g}, {row.length_mm:g} long"
    if piece.kind == "pipe":
        return f"{row.outside_mm:g} x {row.wall_mm:g}, {row.length_mm:g} long"
    return f"round {row.diameter_mm:g}, {row.length_mm:g} long"
