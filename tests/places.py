"""Where the tests find the project's own files."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
DEMO = ROOT / "cli" / "job" / "demo.toml"
TRACKS = ROOT / "tests" / "tracks"
