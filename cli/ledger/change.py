"""What happens to pieces: reserved for a job, given back, cut up. Nothing is written here."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from platewheel.cli.ledger.piece import Holder, Ledger, Piece
from platewheel.cli.work.not_finished import NotFinished
from platewheel.cli.work.text_file import path_text


def reserve(
    ledger: Ledger,
    holder: Holder,
    taken: Sequence[Piece],
    leaves: Sequence[Piece] = (),
    seen: Ledger | None = None,
) -> Ledger:
    """The pieces taken are the job's, and no others; what it leaves is coming. Pieces that the
    ledger has not had yet are written down; one that it had when it was `seen` must be there.

    What the job had reserved before, and what it was to leave, is forgotten first; what it has
    cut up already stays so. Raises: NotFinished where another job has a piece, or it is gone.
    """
    pieces = list(give_back(ledger, holder).pieces)
    places = {piece.called: i for i, piece in enumerate(pieces)}
    wrong = []
    for piece in taken:
        i = places.get(piece.called)
        if i is None and seen and seen.piece(piece.name):
            wrong.append(f"{piece.kind} '{piece.name}': gone from {ledger.path}; try: build again")
        elif i is None:
            pieces.append(piece.put("reserved", holder))
        elif pieces[i].kind != piece.kind:
            told = f"{piece.kind} '{piece.name}': {ledger.path} has a {pieces[i].kind} of that name"
            wrong.append(f"{told}; try: another name")
        elif _changed(pieces[i], seen):
            told = f"{piece.kind} '{piece.name}': its sizes in {ledger.path} are others now"
            wrong.append(f"{told} than when this job was planned; try: run it again")
        elif pieces[i].may_use(holder):
            pieces[i] = pieces[i].put("reserved", holder)
        elif (pieces[i].state, pieces[i].holder) != ("used", holder):
            wrong.append(taken_words(ledger, pieces[i], _was_free(piece, seen, holder)))
    if wrong:
        raise NotFinished(wrong)
    known = {piece.called for piece in pieces}
    coming = (piece.put("coming", holder) for piece in leaves if piece.called not in known)
    return replace(ledger, pieces=(*pieces, *coming))


def _changed(piece: Piece, seen: Ledger | None) -> bool:
    """Whether somebody has edited a piece since the job was planned on it."""
    was = seen.piece(piece.name) if seen else None
    return was is not None and was.sizes != piece.sizes


def _was_free(piece: Piece, seen: Ledger | None, holder: Holder) -> bool:
    was = seen.piece(piece.name) if seen else None
    return was is not None and was.may_use(holder)


def taken_words(ledger: Ledger, piece: Piece, meanwhile: bool = False) -> str:
    """Who has a piece, and what to try; `meanwhile`: it was to be had when the job was planned."""
    told = f"{piece.kind} '{piece.name}': {piece.who} ({ledger.path})"
    if meanwhile:
        return f"{told} while this job was planned; try: run it again, it takes what is free now"
    return f"{told}; try: {way_out(piece)}"


def way_out(piece: Piece) -> str:
    """What to try where a piece is not to be had."""
    job = f'"{piece.job}"'
    if piece.state == "used":
        return "leave it out; if it is there still, give it a name of its own"
    if piece.state == "coming":
        return f"`platewheel stock cut {job}` once that job is cut"
    return f"leave it out, or `platewheel stock give-back {job}`"


def give_back(ledger: Ledger, holder: Holder) -> Ledger:
    """What the job had reserved is free, and what it was to leave does not come."""
    return replace(
        ledger,
        pieces=tuple(
            piece.put("free") if _is(piece, "reserved", holder) else piece
            for piece in ledger.pieces
            if not _is(piece, "coming", holder)
        ),
    )


def cut(ledger: Ledger, holder: Holder) -> Ledger:
    """What the job had reserved is used up, and what it leaves lies on the rack."""

    def now(piece: Piece) -> Piece:
        if _is(piece, "reserved", holder):
            return piece.put("used", holder)
        return piece.put("free") if _is(piece, "coming", holder) else piece

    return replace(ledger, pieces=tuple(now(piece) for piece in ledger.pieces))


def undone(now: Ledger, before: Ledger, holder: Holder) -> Ledger:
    """The ledger as it is now, with this job's pieces as they were before; those of other jobs
    stay, whatever they did meanwhile."""
    old = {p.called: p for p in before.pieces}
    mine = {name: p for name, p in old.items() if p.holder == holder}
    pieces = []
    for was, piece in ((p, p) for p in now.pieces if not _is(p, "coming", holder)):
        if _is(was, "reserved", holder):
            if piece.called not in old:
                continue  # written down by what is undone
            piece = mine.get(piece.called, piece.put("free"))
        elif piece.state == "free":
            piece = mine.get(piece.called, piece)
        pieces.append(piece)
    known = {p.called for p in pieces}
    return replace(now, pieces=(*pieces, *(p for name, p in mine.items() if name not in known)))


def _is(piece: Piece, state: str, holder: Holder) -> bool:
    return piece.state == state and piece.holder == holder


def holders(ledger: Ledger) -> list[Holder]:
    """The jobs that have pieces reserved, or will leave some."""
    found = [p.holder for p in ledger.pieces if p.state in ("reserved", "coming") and p.holder]
    return list(dict.fromkeys(found))


def holder_called(ledger: Ledger, job: str) -> Holder:
    """The job of that name, or else of that file, that has pieces reserved or will leave some.

    Raises: NotFinished where there is none, or several are called so.
    """
    have, file = holders(ledger), path_text(Path(os.path.realpath(job)))
    found = [one for one in have if one.job == job]
    found = found or [one for one in have if one.job_file == file]
    if not found:
        told = ", ".join(map(str, have)) or "none"
        line = f"job '{job}' has nothing reserved; jobs that have: {told}"
    elif len(found) > 1:
        files = ", ".join(str(one.job_file) for one in found)
        line = f"{len(found)} jobs are called '{job}'; name it by its file: {files}"
    else:
        return found[0]
    raise NotFinished([f"{ledger.path}: {line}"])
