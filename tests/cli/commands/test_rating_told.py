"""What report and job sheet say of the rating, above all where the worn wheel is not rated."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.jobs import NAME, job_text, run, write_job


@pytest.mark.parametrize(("wear", "state"), [("0", "new"), ("0.5", "worn"), ("5.5", "new")])
def test_the_rated_load_is_the_lower_one_that_exists(tmp_path: Path, wear: str, state: str) -> None:
    """5.5 mm is more than half of the 6 mm wall: new is rated, worn is a failed check."""
    text = job_text().replace("[[stock]]", f"[use]\nwear_allowance_mm = {wear}\n\n[[stock]]", 1)
    result = run("build", write_job(tmp_path, text), "--out", tmp_path / "o")
    rating = json.loads((tmp_path / "o" / NAME / "report.json").read_text())["rating"]
    loads = [load for load in (rating["new_n"], rating["worn_n"]) if load is not None]
    assert rating["rated_n"] == min(loads) > 0
    assert rating["rated_state"] == state
    page = (tmp_path / "o" / NAME / "job-sheet.html").read_text()
    assert f"Rated wheel load {rating['rated_n']:.0f} N" in page
    assert ("Not rated worn" in page) == (rating["worn_n"] is None)
    assert result.exit_code == (1 if rating["worn_n"] is None else 0)
