"""Exit codes, and errors told one finding a line on stderr; no traceback without --debug."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import BrokenExecutor
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

from platewheel.cli.terminal.width import columns, folded
from platewheel.cli.work.not_finished import NotFinished
from platewheel.cli.work.stopping import ToldToStop, what_is_kept
from platewheel.cli.work.whole_file import write_whole
from platewheel.parts.base.interruptible import kept_already

MOST_TOLD = 200  # faults at once
_TRACEBACKS: ContextVar[bool] = ContextVar("tracebacks", default=False)
DONE, CHECK_FAILED, REFUSED, NOT_FINISHED = 0, 1, 2, 3


SHORT = "short of memory: close other programs, or raise this one's limit, and run it again"
# of the loader of shared libraries: there is no place to put one
NO_ROOM = ("failed to map segment", "annot allocate memory")


def show_tracebacks(shown: bool) -> None:
    """Whether a fault of platewheel itself is told with its traceback."""
    _TRACEBACKS.set(shown)


@contextmanager
def exit_codes() -> Iterator[None]:
    """Turns the errors that can be expected into the exit codes of the command line."""
    import typer

    from platewheel.nesting.stock.layout import NestingError
    from platewheel.parts.base.faults import GeometryError, SpecError

    try:
        yield
    except SpecError as error:
        tell([str(fault) for fault in error.faults[:MOST_TOLD]])
        untold = len(error.faults) - MOST_TOLD
        if untold > 0:
            tell([f"and {untold} more faults: mend these first"])
        raise typer.Exit(REFUSED) from None
    except NotFinished as error:
        tell(error.lines)
        raise typer.Exit(NOT_FINISHED) from None
    except (NestingError, GeometryError) as error:
        tell([str(error)])
        raise typer.Exit(NOT_FINISHED) from None
    except (KeyboardInterrupt, ToldToStop):
        tell([f"stopped; {what_is_kept()}"])
        raise typer.Exit(NOT_FINISHED) from None
    except MemoryError as error:
        tell([f"{SHORT} ({error})" if str(error) else SHORT])
        raise typer.Exit(NOT_FINISHED) from None
    except OSError as error:
        reason = getattr(error, "strerror", None) or str(error) or type(error).__name__
        where = getattr(error, "filename", None)
        tell([f"{where}: {reason}" if where else reason])
        raise typer.Exit(NOT_FINISHED) from None
    except ImportError as error:
        if any(words in str(error) for words in NO_ROOM):
            tell([f"{SHORT} ({error})"])
            raise typer.Exit(NOT_FINISHED) from None
        tell([f"a library cannot be loaded: {error}; see README, 'If a library is missing'"])
        raise typer.Exit(NOT_FINISHED) from None
    except (typer.Exit, typer.Abort):
        raise
    except BrokenExecutor:
        tell(["a process beside this one was ended: told to stop, or short of memory; try again"])
        raise typer.Exit(NOT_FINISHED) from None
    except Exception as error:
        if _by_a_stop(error):
            tell([f"stopped; {what_is_kept()}"])
            raise typer.Exit(NOT_FINISHED) from None
        if _TRACEBACKS.get():
            traceback.print_exc()
        place = error.__traceback__
        while place and place.tb_next:
            place = place.tb_next
        line = f"{place.tb_frame.f_code.co_filename}:{place.tb_lineno}" if place else "unknown"
        more = "" if _TRACEBACKS.get() else "; platewheel --debug shows more"
        tell([f"a fault of platewheel itself, please report it: {error!r} at {line}{more}"])
        raise typer.Exit(NOT_FINISHED) from None


def _by_a_stop(error: BaseException | None) -> bool:
    """Whether it came while a stop was on its way out, of something that was left half done."""
    while error is not None:
        if isinstance(error, ToldToStop):
            return True
        if isinstance(error, KeyboardInterrupt) and not kept_already():
            return True
        error = error.__context__
    return False


def tell(lines: Sequence[str]) -> None:
    """Findings on stderr, one a line; folded on a terminal."""
    width = columns(sys.stderr)
    for line in lines:
        sys.stderr.write("\n".join(folded(quiet(line), width)) + "\n")


def tell_file(file: Path, *, aside: bool = False) -> None:
    """Where a file has been written, on stdout or `aside` on stderr: for a program as it is named,
    for a person without what a terminal would act upon."""
    stream = sys.stderr if aside else sys.stdout
    stream.write((quiet(str(file)) if stream.isatty() else str(file)) + "\n")


def quiet(line: str) -> str:
    """The line without what a terminal would act upon."""
    return "".join(c if c.isprintable() else " " for c in line)


def tell_warnings(lines: Sequence[str]) -> None:
    """Warnings on stderr, one a line; on a terminal marked, and counted in the last line."""
    if columns(sys.stderr) is None or not lines:
        tell(lines)
        return
    tell([f"warn  {line}" for line in lines])
    tell([f"{len(lines)} warning{'s' * (len(lines) != 1)}"])


def write_new(file: Path, text: str, overwrite: bool | None, *, reads: Iterable[Path] = ()) -> None:
    """Write a file that a person will fill in; one that is there stays unless told otherwise, and
    one of those that the command `reads` whatever it is told. None: it cannot be told so.

    Raises: typer.Exit where it is there; OSError.
    """
    require_new(file, overwrite, reads=reads)
    try:
        write_whole(file, text.encode(), over=bool(overwrite))
    except FileExistsError:  # made meanwhile
        require_new(file, overwrite)


def require_new(
    file: Path, overwrite: bool | None, name: str = "wheels.toml", *, reads: Iterable[Path] = ()
) -> None:
    """For a command that takes long: its file, called such as `name`, can be written, and is none
    of those that it `reads`.

    Raises: typer.Exit where not.
    """
    import typer

    if file.is_dir():
        line = f"{file}: is a folder; try a file in it, such as {file / name}"
    elif not file.parent.is_dir():
        line = f"{file}: there is no folder {file.parent}; make it first, or try another name"
    elif file.is_symlink() and not file.exists():
        line = f"{file}: is a link that leads to no file; take it away, or try another name"
    elif file.exists() and not file.is_file():
        line = f"{file}: is there, but no file; try another name"
    elif file.exists() and any(one.exists() and file.samefile(one) for one in reads):
        line = f"{file}: is read by this command and would be lost; try another name"
    elif file.exists() and not overwrite:
        over = "" if overwrite is None else ", or --overwrite"
        line = f"{file}: is there already; try another name{over}"
    elif not os.access(os.path.dirname(os.path.realpath(file)), os.W_OK | os.X_OK):
        line = f"{file}: its folder is not yours to write in; try another name"
    else:
        return
    tell([line])
    raise typer.Exit(REFUSED)
