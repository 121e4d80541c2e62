"""A run ends with a code that README names and a line that says why, wherever it is stopped."""

from __future__ import annotations

import pytest
import typer

from platewheel.cli.terminal.exits import NOT_FINISHED, exit_codes
from platewheel.cli.terminal.run import run
from platewheel.cli.work.stopping import ToldToStop, placed


@pytest.mark.parametrize("stop", [KeyboardInterrupt, ToldToStop])
@pytest.mark.parametrize("there", [False, True])
def test_a_stop_after_a_command_has_done_its_work_is_told(
    stop: type[BaseException],
    there: bool,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Between the end of `exit_codes` and that of the command, where it shows what it has done."""
    app = typer.Typer()

    @app.command()
    def nest() -> None:
        with exit_codes():
            if there:
                placed("out/pond is the new one, whole")
        raise stop

    monkeypatch.setattr("sys.argv", ["platewheel"])
    assert run(app) == NOT_FINISHED
    kept = "out/pond is the new one, whole" if there else "nothing is written, all is as it was"
    assert capsys.readouterr().err == f"stopped; {kept}\n"


@pytest.mark.parametrize(
    ("error", "begins"),
    [
        (MemoryError("Unable to allocate 9 GiB"), "short of memory: close other programs"),
        (MemoryError(), "short of memory: close other programs"),
        (ImportError("a.so: failed to map segment from shared object"), "short of memory: "),
        (ImportError("a.so: cannot open shared object file"), "a library cannot be loaded: a.so"),
    ],
)
def test_memory_that_ran_out_is_told_as_that(
    error: Exception, begins: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(typer.Exit) as left, exit_codes():
        raise error
    assert left.value.exit_code == NOT_FINISHED
    told = capsys.readouterr().err
    assert told.startswith(begins)
    assert str(error) in told
