"""Where the console script begins: nothing is loaded before signals and streams are in hand."""

from __future__ import annotations

import signal
from collections.abc import Sequence
from pathlib import Path


def main() -> None:
    """Entry point of the console script."""
    if signal.getsignal(signal.SIGINT) == signal.default_int_handler:
        signal.signal(signal.SIGINT, signal.SIG_DFL)  # until it is heard: no traceback
    from platewheel.cli.terminal.streams import forgiving_streams
    from platewheel.cli.work.guard import guarded

    forgiving_streams()
    guarded(_run, _mend)


def _run() -> int:
    from platewheel.cli.terminal.run import run

    def command() -> None:
        from platewheel.cli.commands.main import app

        app()

    return run(command)


def _mend(begun: Sequence[str], in_place: bool) -> None:
    what, where, name, *more = begun
    if what == "folder":
        from platewheel.cli.output.alone import mend

        mend(Path(where), name, [Path(one) for one in more])
    elif not in_place:  # its files are not there, so its pieces are not the job's
        from platewheel.cli.ledger.keep import take_back

        take_back(Path(where), name, *more)
