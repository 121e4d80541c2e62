"""Runs of the torch in a cutting file: each path with the leads that stand before and behind it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.nesting.proof.pieces import Path, backwards, path_length_mm
from platewheel.nesting.proof.reading import CUTS, Drawn
from platewheel.parts.geometry.outline import Point

JOINT_MM = 1e-3  # ends that meet
LED = (*CUTS, "offcut")


@dataclass(frozen=True)
class Run:
    """From one pierce to the next; `begins` is the place of its path in the file."""

    layer: str
    path: Path
    closed: bool
    begins: int
    lead_in: Path = ()
    lead_out: Path = ()

    @property
    def start(self) -> Point:
        """Where the torch pierces."""
        return (self.lead_in or self.path)[0].start

    @property
    def length_mm(self) -> float:
        """Of path and leads."""
        return math.fsum(path_length_mm(p) for p in (self.lead_in, self.path, self.lead_out))


def runs_of(drawn: Sequence[Drawn]) -> tuple[tuple[Run, ...], tuple[Drawn, ...]]:
    """Runs in their order, and the leads that stand at none.

    A lead-in stands straight before its path and ends at its start, a lead-out straight behind
    and begins at its end. A parting cut that goes on where the one before ended is the same run.
    """
    runs: list[Run] = []
    loose: list[Drawn] = []
    waiting: Path = ()
    for i, one in enumerate(drawn):
        if not one.path:
            continue
        if one.layer == "lead":
            after = drawn[i + 1] if i + 1 < len(drawn) else None
            before = runs[-1] if runs and i and drawn[i - 1].layer in LED else None
            into = _ending_at(one, after.path[0].start) if after and _leads(after) else ()
            off = () if before is None else _ending_at(one, before.path[-1].end, begins=True)
            if into:
                waiting = into
            elif off and before is not None and not before.lead_out:
                runs[-1] = Run(
                    before.layer, before.path, before.closed, before.begins, before.lead_in, off
                )
            else:
                loose.append(one)
            continue
        if one.layer not in (*LED, "skeleton"):
            continue
        last = runs[-1] if runs else None
        goes_on = last is not None and one.layer == last.layer == "offcut" and not waiting
        if goes_on and last is not None and _meet(last.path[-1].end, one.path[0].start):
            path = last.path + one.path
            closed = _meet(path[0].start, path[-1].end)
            runs[-1] = Run(last.layer, path, closed, last.begins, last.lead_in)
            continue
        closed = one.closed or (one.layer == "offcut" and _meet(one.at, one.path[-1].end))
        runs.append(Run(one.layer, one.path, closed, i, waiting))
        waiting = ()
    return tuple(runs), tuple(loose)


def _leads(one: Drawn) -> bool:
    return one.layer in LED and bool(one.path)


def _ending_at(lead: Drawn, joint: Point, *, begins: bool = False) -> Path:
    """The lead as run where it meets the joint, else nothing; an ARC may be run either way."""
    for path in (lead.path, backwards(lead.path)) if lead.kind == "ARC" else (lead.path,):
        if _meet(path[0].start if begins else path[-1].end, joint):
            return path
    return ()


def _meet(a: Point, b: Point) -> bool:
    return math.dist(a, b) <= JOINT_MM
