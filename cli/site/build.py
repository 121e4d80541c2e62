"""Builds the pages; any warning is an error. Needs sphinx: `pip install 'platewheel[docs]'`."""

from __future__ import annotations

import shutil
import sys
import tempfile
from importlib.metadata import version
from pathlib import Path

import platewheel
from platewheel.cli.script.job_file import demo
from platewheel.cli.site.as_rst import as_rst
from platewheel.cli.site.pages import (
    examples_page,
    index_page,
    keys_page,
    reference_page,
    report_page,
)
from platewheel.cli.terminal.run import run
from platewheel.cli.work.guard import guarded, in_place
from platewheel.cli.work.stopping import undisturbed

OPTIONS = {
    "project": "platewheel",
    "version": version("platewheel"),
    "release": version("platewheel"),
    "copyright": "",
    "html_show_copyright": False,
    "html_show_sphinx": False,
    "html_copy_source": False,
    "html_theme": "alabaster",
    "html_theme_options": {
        "page_width": "1100px",
        "description": (platewheel.__doc__ or "").split(",")[0],
    },
    "html_title": "platewheel",
    "extensions": ["sphinx.ext.autodoc"],
    "default_role": "code",
    "smartquotes": False,
    "autodoc_member_order": "bysource",
    "autodoc_typehints": "signature",
    "autodoc_preserve_defaults": True,
    "python_use_unqualified_type_names": True,
    "highlight_language": "python",
}


def main(top: Path, out: Path) -> None:
    """The pages of the project whose folder is `top`, into `out`, put there when all are made.

    Raises: SphinxWarning; SystemExit.
    """
    from sphinx.application import Sphinx

    with tempfile.TemporaryDirectory() as aside:
        source, made = Path(aside, "pages"), Path(aside, "made")
        source.mkdir()
        write_pages(top, source)
        app = Sphinx(
            str(source),
            None,
            str(made),
            str(Path(aside, "trees")),
            "html",
            confoverrides=OPTIONS,
            status=None,
            warningiserror=True,
        )
        app.build()
        if app.statuscode:
            raise SystemExit(app.statuscode)
        with undisturbed():
            shutil.rmtree(out, ignore_errors=True)
            out.parent.mkdir(parents=True, exist_ok=True)
            shutil.move(made, out)
            in_place(f"{out} is the new one, whole")


def write_pages(top: Path, source: Path) -> None:
    """All pages as reStructuredText, with their pictures and scripts beside them."""
    from platewheel.cli.papers.charts.flange_window import window_picture
    from platewheel.cli.papers.drawings.section import section_picture

    job = demo().job
    drawn = {
        "wheel-section": section_picture(job.wheel),
        "flange-window": window_picture(job.setting),
    }
    for name, picture in drawn.items():
        (source / f"{name}.svg").write_text(picture, encoding="utf-8")
    shutil.copytree(top / "out" / "readme", source / "out" / "readme")
    shutil.copy(top / "DEVELOPERS.md", source / "DEVELOPERS.md.txt")
    scripts = sorted(path for path in (top / "tests" / "examples").glob("[!_]*.py"))
    for path in scripts:
        shutil.copy(path, source / path.name)
    pages = {
        "index": index_page(),
        "readme": as_rst((top / "README.md").read_text(encoding="utf-8")),
        "reference": reference_page(),
        "examples": examples_page(scripts),
        "job-file": keys_page(),
        "report": report_page(),
    }
    for name, text in pages.items():
        (source / f"{name}.rst").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    given = Path(sys.argv[1] if len(sys.argv) > 1 else "out/site")
    guarded(lambda: run(lambda: main(Path.cwd(), given)), lambda begun, in_place: None)
