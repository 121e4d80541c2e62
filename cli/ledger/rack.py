"""What a job may cut: the rows of its file, and the pieces of its ledger that no other job has."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from platewheel.cli.ledger.change import way_out
from platewheel.cli.ledger.piece import Holder, Ledger, Piece
from platewheel.cli.ledger.read import read_ledger
from platewheel.cli.work.text_file import path_text
from platewheel.nesting.stock.piece_name import as_called
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import Spec, unchecked

TABLES = {"plate": "stock", "offcut": "offcut", "bar": "bar", "pipe": "pipe", "round": "round"}
Rows = Mapping[str, tuple[Any, ...]]


@dataclass(frozen=True)
class Rack:
    """A job's ledger as it was read, the job's file, and the rows of the file itself."""

    ledger: Ledger
    file: str | None
    own: Rows

    def pieces(self, job: str) -> list[Piece]:
        """Those that the job of that name may use: its own reservation first."""
        holder = Holder(job, self.file)
        may = [piece for piece in self.ledger.pieces if piece.may_use(holder)]
        return sorted(may, key=lambda piece: piece.state == "free")

    def rows(self, job: str) -> dict[str, tuple[Any, ...]]:
        """Tables of a job file: pieces that are alike as one row with their count, before what the
        file has; an offcut that stands in both is one."""
        rows = {name: tuple(self.own.get(name, ())) for name in TABLES.values()}
        listed = {as_called(row.name) for row in rows["offcut"]}
        pieces = [p for p in self.pieces(job) if p.kind != "offcut" or p.called not in listed]
        for kind, table in TABLES.items():
            specs = [_priced(piece.spec, rows[table]) for piece in pieces if piece.kind == kind]
            if kind == "offcut":
                rows[table] = (*rows[table], *specs)
            else:
                rows[table] = (*_counted(specs), *rows[table])
        return rows

    def require_free(self, job: str) -> None:
        """Raises: SpecError telling each offcut of the job's file that another job has, or that
        the ledger knows as something else."""
        holder = Holder(job, self.file)
        faults: list[Fault] = []
        for i, row in enumerate(self.own.get("offcut", ())):
            piece = self.ledger.piece(row.name)
            if piece and not piece.may_use(holder) and piece.holder != holder:
                told = f"a piece that no other job has; {piece.who} ({self.ledger.path})"
                faults.append(Fault(f"offcut[{i}].name", row.name, told, way_out(piece)))
            elif piece:
                faults += self._unlike(f"offcut[{i}]", row, piece)
        if faults:
            raise SpecError(faults)

    def _unlike(self, key: str, row: Any, piece: Piece) -> Iterator[Fault]:
        """Where a row of the job's file and the piece of its name are not one and the same."""
        if piece.kind != "offcut":
            told = f"a name of its own; {self.ledger.path} has a {piece.kind} '{piece.name}'"
            yield Fault(f"{key}.name", row.name, told, "chalk another; one piece, one name")
            return
        for of in ("steel", "thickness_mm", "outline", "holes"):
            own, there = getattr(row, of), getattr(piece.spec, of)
            if not _same(of, own, there):
                told = f"what {self.ledger.path} says of offcut '{piece.name}': {there}"
                advice = "measure it, correct the wrong one; or leave the row out of the job file"
                yield Fault(f"{key}.{of}", own, told, advice)


def rack_of(head: object, folder: Path, file: Path | None, own: Rows) -> Rack | None:
    """The rack of a job whose `[job]` names a ledger, seen from the job's folder.

    Raises: SpecError where the ledger is not there or damaged.
    """
    name = getattr(head, "ledger", None)
    if name is None:
        return None
    return Rack(read_ledger(folder / name), path_text(file.resolve()) if file else None, own)


def _same(key: str, one: Any, other: Any) -> bool:
    if key == "outline":
        return _as_walked(one) == _as_walked(other)
    if key == "holes":
        return sorted(map(_as_walked, one)) == sorted(map(_as_walked, other))
    return bool(one == other)


def _as_walked(ring: Sequence[Sequence[float]]) -> list[tuple[float, ...]]:
    """Corners from the least on, the way round that comes first: wherever the list begins."""
    corners = [tuple(map(float, corner)) for corner in ring]
    ways = []
    for run in (corners, corners[::-1]):
        at = run.index(min(run))
        ways.append(run[at:] + run[:at])
    return min(ways)


def _counted(specs: Sequence[Spec]) -> list[Spec]:
    """Each size once, with its count."""
    alike = Counter(tuple(spec.model_dump().items()) for spec in specs)
    return [type(specs[0])(**(dict(keys) | {"count": n})) for keys, n in alike.items()]


def _priced(spec: Any, rows: Sequence[Any]) -> Any:
    """The piece at the price of such a row of the job file, where it has none of its own."""
    if getattr(spec, "price", 1.0):
        return spec
    sizes = spec.model_dump(exclude={"price", "count"})
    same = (r.price for r in rows if r.model_dump(exclude={"price", "count"}) == sizes)
    return unchecked(spec, {"price": next(same, 0.0)})
