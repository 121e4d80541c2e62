"""The folder of a proposal: its page and its numbers."""

from __future__ import annotations

from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.output.folder import PROPOSAL_OURS, write_folder
from platewheel.cli.papers.propose_page import proposal_page
from platewheel.cli.schema.propose import ProposeReport


def write_proposal(job: Job, report: ProposeReport, out: Path) -> Path:
    """Write out/<job name>-proposal; returns the page. Raises: NotFinished where the folder is
    not ours to replace."""
    name = f"{job.head.name}-proposal"

    def write(folder: Path) -> None:
        text = report.model_dump_json(indent=2)
        (folder / "report.json").write_text(text + "\n", encoding="utf-8")
        (folder / "proposal.html").write_text(proposal_page(job, report), encoding="utf-8")

    write_folder(out, name, write, PROPOSAL_OURS)
    return out / name / "proposal.html"
