"""A job file as a table of plain values; what is wrong with the file itself is told by its name."""

from __future__ import annotations

import codecs
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from platewheel.cli.job.broken_lines import Written, recovered
from platewheel.cli.job.toml_lines import Places, places
from platewheel.cli.work.text_file import NotText, NotToml, no_utf8, sound_bytes, toml_table
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import Spec

MOST_BYTES = 1_000_000  # a job file is a few kilobytes
JOB_FILE = "a job file (TOML text)"
START = "`platewheel new FILE` writes one to start from"
WIDE = (  # marks that a text of wider characters begins with
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
AS_UTF8 = 'save the file as "UTF-8" in the text editor'


@dataclass(frozen=True)
class JobText:
    """The sections of a job file, what its lines lack, and where each key stands.

    `vague`: a line was not understood, so that what is missing cannot be told; `told`: keys of
    which a fault of a line tells already.
    """

    table: dict[str, Any]
    places: Places
    faults: tuple[Fault, ...] = ()
    vague: bool = False
    told: frozenset[str] = frozenset()


def read_toml(path: Path, kinds: Mapping[str, type[Spec]], repeated: Collection[str]) -> JobText:
    """The file's sections, of `kinds`, some `repeated`; lines that are no TOML are among its
    faults. Raises: SpecError for what is no text of a reasonable size."""
    file, data = str(path), sound_bytes(path, MOST_BYTES, ("a job file", "TOML text"), START)
    if not data.strip():
        raise SpecError([Fault(file, "an empty file", JOB_FILE, START)])
    text, faults = _decoded(data, file)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    vague, told = False, frozenset[str]()
    try:
        table = toml_table(text)
    except NotToml as error:
        found = recovered(text, file, kinds, repeated)
        faults += found.faults or [_unread(error, file)]
        table, told = found.table, frozenset(found.told)
        vague = found.vague or not found.faults
    except NotText as error:
        raise SpecError([Fault(file, Written(error.found), JOB_FILE, START, error.line)]) from error
    last = text.rstrip("\n").count("\n") + 1
    here = Places(places(text), last, frozenset(kinds))
    return JobText(table, here, tuple(faults), vague, told)


def _decoded(data: bytes, file: str) -> tuple[str, list[Fault]]:
    """Text of the bytes, and what is wrong with how they are written; each is read as what it
    seems, so that the faults of its lines can be told too."""
    for begins, name in WIDE:
        if data.startswith(begins):
            try:
                text = data.decode(name)
            except UnicodeDecodeError:
                break
            found = Written(f"{name.upper()} text")
            return text, [Fault(file, found, "UTF-8 text", AS_UTF8, 1)]
    try:
        return data.decode("utf-8-sig"), []
    except UnicodeDecodeError as error:
        unread, line = no_utf8(data, error)
        bare = re.sub(rb"[\t\r\n -\xff]", b"", data)  # what no text has
        if bare or b"=" not in data:
            raise SpecError([Fault(file, unread, JOB_FILE, START, line)]) from error
        text = data.decode("cp1252", errors="replace")
        mark = data[error.start : error.start + 1].decode("cp1252", errors="replace")
        other = Written(f"{mark!r} in another encoding (Windows-1252 or Latin-1)")
        return text, [Fault(file, other, "UTF-8 text", AS_UTF8, line)]


def _unread(error: NotToml, file: str) -> Fault:
    """What TOML has against a text whose lines are sound one by one."""
    advice = "text in quotes, numbers without; one key = value on a line, each key once"
    return Fault(file, error.found, "TOML, https://toml.io", advice, error.line)
