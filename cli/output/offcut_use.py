"""Which job used which offcut: each job folder tells it, and builds beside it warn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from platewheel.cli.job.job import Job
from platewheel.cli.work.text_file import file_bytes, no_utf8, path_text, toml_table
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.piece_name import as_called
from platewheel.parts.base.spec_model import toml_value

USED_FILE = "offcuts-used.toml"
MOST_BYTES = 1_000_000  # such a file has a line or two for each offcut


def used_toml(layouts: Sequence[Layout], job_name: str) -> str:
    """`[[used]]` tables: the offcuts that a job's cutting files really lay parts on."""
    lines = [f"# offcuts that the cutting files of {job_name} use up; builds beside it read this"]
    for layout in layouts:
        if layout.sheet.is_offcut and layout.placements:
            lines += ["", "[[used]]", f"name = {toml_value(layout.sheet.name)}"]
    return "\n".join(lines) + "\n"


def offcut_notes(job: Job, layouts: Sequence[Layout], out: Path) -> list[str]:
    """All that is to be minded of the offcuts of a plan."""
    return [*used_before(job, out), *uncounted(job, layouts)]


def used_before(job: Job, out: Path) -> list[str]:
    """A warning for each offcut of the job that another job in `out` used, and for each record
    that cannot be read. The job's own former build does not count, and of pieces in its ledger
    that tells."""
    known = {piece.called for piece in job.rack.ledger.pieces} if job.rack else set()
    named = {as_called(o.name): o.name for o in job.offcuts if as_called(o.name) not in known}
    if not named:
        return []
    lines = []
    try:
        homes = sorted(out.iterdir()) if out.is_dir() else []
    except OSError as error:
        why = f"{path_text(out)}: {error.strerror or error}"
        return [f"{why}; it is not known which offcuts were used before"]
    for home in homes:
        if home.name == job.head.name or home.name.startswith("."):
            continue
        try:
            used = {as_called(name) for name in _used_names(home / USED_FILE)}
        except (OSError, ValueError) as error:
            reason = " ".join((getattr(error, "strerror", None) or str(error)).split())
            lines.append(
                f"{path_text(home / USED_FILE)}: cannot be read: {reason}; it is not known which "
                f"offcuts job '{path_text(Path(home.name))}' used"
            )
            continue
        lines += [
            f"offcut '{name}' was used by job '{path_text(Path(home.name))}' ({path_text(home)}): "
            "check that it is still there"
            for name in sorted(named[called] for called in named.keys() & used)
        ]
    return lines


def uncounted(job: Job, layouts: Sequence[Layout]) -> list[str]:
    """Without a ledger nothing knows of a job in another folder, or of one that is planned at the
    same time, that takes an offcut too."""
    taken = {one.sheet.name for one in layouts if one.sheet.is_offcut and one.placements}
    if job.rack or not taken:
        return []
    names = ", ".join(f"'{name}'" for name in sorted(taken))
    which = f"offcut {names} is" if len(taken) == 1 else f"offcuts {names} are"
    return [
        f"{which} in no ledger: look that no other job is planned on the same steel; "
        'to keep count, job.ledger = "stock.toml" (`platewheel stock new` writes one)'
    ]


def _used_names(path: Path) -> Iterator[str]:
    """Raises: OSError, ValueError where the file is there but is no such record."""
    try:
        data = file_bytes(path, MOST_BYTES)
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found, line = no_utf8(data, error)
        raise ValueError(f"{found}, in line {line}") from error
    except (FileNotFoundError, NotADirectoryError):
        return
    rows: Any = toml_table(text).get("used", [])
    if not isinstance(rows, list):
        raise ValueError("used is no list of tables")
    for row in rows:
        name = row.get("name") if isinstance(row, dict) else None
        if not isinstance(name, str):
            raise ValueError("a table without a name")
        yield name
