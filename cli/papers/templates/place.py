"""Where the templates lie."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

TEMPLATES = Path(str(files("platewheel.cli.papers.templates")))
