"""Child processes of `floors.py`: a command of ours with what it asks of libraries kept, and the
same libraries alone.

record FOLDER COMMAND...: runs the command; keeps in FOLDER the names of the modules loaded that
are neither ours nor Python's, the sources given to Typst, the systems of equations factorized and
solved (those of a process beside it too), and the CPU seconds of our papers and STEP files.
floor FOLDER OUTPUT WHAT...: imports these modules; does over again with the libraries alone what
WHAT names (typst, solves, solids, dxf, copy); CPU seconds by name as JSON.
"""

from __future__ import annotations

import importlib
import json
import os
import pickle
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

PAPERS = (
    "plate_drawing",
    "drawings_of",
    "job_sheet",
    "job_sheet_pdf",
    "standards_pdf",
    "calculation_pdf",
)


def keep(folder: Path, kind: str, value: object) -> None:
    name = f"{kind}-{os.getpid()}-{time.monotonic_ns()}.pickle"
    (folder / name).write_bytes(pickle.dumps(value))


def kept(folder: Path, kind: str) -> list[Any]:
    return [pickle.loads(path.read_bytes()) for path in sorted(folder.glob(f"{kind}-*"))]


def libraries() -> list[str]:
    """Loaded modules of installed packages, in the order in which they were loaded."""
    found = []
    for name, module in list(sys.modules.items()):
        file = getattr(module, "__file__", None) or ""
        if "-packages" in file and not name.startswith(("platewheel", "__", "_distutils")):
            found.append(name)
    return found


def record(folder: Path, arguments: list[str]) -> None:
    """Run a command with its libraries watched."""
    if arguments[0] in ("check", "build"):
        watch_solves(folder)
    if arguments[0] == "build":
        watch_papers(folder)
    from platewheel.cli.commands.main import app

    try:
        app(arguments)
    except SystemExit as ended:
        if ended.code not in (0, 1):
            raise
    finally:
        keep(folder, "libraries", libraries())


def watch_solves(folder: Path) -> None:
    """Each system with its right sides."""
    import scipy.sparse.linalg as linalg

    plain = linalg.splu

    class Factor:
        def __init__(self, matrix: Any, **options: Any) -> None:
            self.asked, self.made = [matrix, options], plain(matrix, **options)

        def __getattr__(self, name: str) -> Any:
            return getattr(self.made, name)

        def solve(self, right: Any) -> Any:
            keep(folder, "solves", [*self.asked, right])
            return self.made.solve(right)

        @property
        def perm_c(self) -> Any:
            keep(folder, "solves", [*self.asked, None])
            return self.made.perm_c

    linalg.splu = Factor  # type: ignore[misc]
    import platewheel.parts.rating.assess as judged

    whole = judged.assess

    @wraps(whole)
    def beside(
        *given: Any,
    ) -> Any:  # maybe in another process, with libraries of its own
        found = whole(*given)
        keep(folder, "libraries", libraries())
        return found

    judged.assess = beside


def watch_papers(folder: Path) -> None:
    """Sources of the papers, and the CPU seconds of papers and STEP files as made."""
    import typst

    import platewheel.cli.output.build as build
    import platewheel.parts.geometry.step_file as step_file

    plain = typst.compile_with_warnings

    def compiled(sources: dict[str, bytes], **options: Any) -> Any:
        keep(folder, "typst", sources)
        return plain(sources, **options)

    typst.compile_with_warnings = compiled  # type: ignore[assignment]

    def timed(module: Any, name: str, kind: str) -> None:
        function: Callable[..., Any] = getattr(module, name)

        @wraps(function)
        def run(*given: Any, **options: Any) -> Any:
            began = time.process_time()
            try:
                return function(*given, **options)
            finally:
                keep(folder, f"ours-{kind}", time.process_time() - began)

        setattr(module, name, run)

    for name in PAPERS:
        timed(build, name, "papers")
    timed(step_file, "write_step", "step")


def floor(folder: Path, output: Path, wanted: list[str]) -> dict[str, float]:
    """CPU seconds of the libraries alone."""
    began = 0.0  # process time counts from the start of the interpreter
    for name in dict.fromkeys(name for names in kept(folder, "libraries") for name in names):
        importlib.import_module(name)
    spent = {"imports": time.process_time() - began}
    for what in wanted:
        work = WORK[what](folder, output)
        began = time.process_time()
        work()
        spent[what] = time.process_time() - began
    return spent


def typst_alone(folder: Path, output: Path) -> Callable[[], object]:
    import typst

    sources = kept(folder, "typst")
    fonts = typst.Fonts(include_system_fonts=False)
    options = {"font_paths": fonts, "timestamp": 0, "pdf_standards": "a-2a"}
    return lambda: [typst.compile_with_warnings(one, **options) for one in sources]  # type: ignore[call-overload]


def solves_alone(folder: Path, output: Path) -> Callable[[], object]:
    from scipy.sparse.linalg import splu

    systems = kept(folder, "solves")

    def work() -> None:
        for matrix, options, right in systems:
            factor = splu(matrix, **options)
            if right is not None:
                factor.solve(right)

    return work


def solids_alone(folder: Path, output: Path) -> Callable[[], object]:
    from tests.bench.raw_solids import bodies

    return bodies


def step_alone(folder: Path, output: Path) -> Callable[[], object]:
    """Transfer and Write of documents that were read from our own files."""
    from OCP.STEPCAFControl import STEPCAFControl_Reader, STEPCAFControl_Writer
    from OCP.STEPControl import STEPControl_StepModelType
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document

    read = []
    for path in sorted((output / "solids").glob("*.step")):
        made = TDocStd_Document(TCollection_ExtendedString("XCAF"))
        reader = STEPCAFControl_Reader()
        reader.SetNameMode(True)
        reader.SetColorMode(True)
        reader.ReadFile(str(path))
        reader.Transfer(made)
        read.append((path.name, made))
    to = Path(tempfile.mkdtemp(dir=folder))

    def work() -> None:
        for name, made in read:
            writer = STEPCAFControl_Writer()
            writer.Transfer(made, STEPControl_StepModelType.STEPControl_AsIs)
            writer.Write(str(to / name))

    return work


def dxf_alone(folder: Path, output: Path) -> Callable[[], object]:
    """Each file read once (no file goes out unread) and written once."""
    import ezdxf

    files = sorted(output.rglob("*.dxf"))
    to = Path(tempfile.mkdtemp(dir=folder))
    return lambda: [ezdxf.readfile(path).saveas(to / path.name) for path in files]


def copy_alone(folder: Path, output: Path) -> Callable[[], object]:
    to = Path(tempfile.mkdtemp(dir=folder)) / "copy"
    return lambda: shutil.copytree(output, to)


WORK = {
    "typst": typst_alone,
    "solves": solves_alone,
    "solids": solids_alone,
    "step": step_alone,
    "dxf": dxf_alone,
    "copy": copy_alone,
}

if __name__ == "__main__":
    what, place, *more = sys.argv[1:]
    if what == "record":
        record(Path(place), more)
    else:
        print(json.dumps(floor(Path(place), Path(more[0]), more[1:])))
