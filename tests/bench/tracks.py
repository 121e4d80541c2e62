"""What `propose` says of six invented tracks, one of them hopeless:

    python -m tests.bench.tracks [NAME ...]

Run by hand (some minutes). Prints of each the proposals with wheel, play, reserve and what binds
them, and where no wheel passes what would do. The tracks are in
`tests/tracks/bench`; a builder judges what is printed.
"""

from __future__ import annotations

import sys

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose.played import proposed_job
from platewheel.cli.propose.run import propose
from platewheel.cli.propose.wanted import Wanted
from platewheel.cli.schema.propose import ProposalRow, ProposeReport
from platewheel.cli.words.proposal_lessons import reserve_percent
from platewheel.parts.loads.flange_contact import contact_in_curve
from tests.places import TRACKS

SHARES = (0.7, 1.3)  # least and most diameter over the job's own, as the command has them


def main(names: list[str]) -> None:
    """Each track in turn."""
    files = sorted((TRACKS / "bench").glob("*.toml"))
    for file in files:
        if not names or file.stem in names:
            print(f"\n{file.stem}", flush=True)
            job = read_job(file)
            for line in told(job, proposed(job)):
                print(f"  {line}", flush=True)


def proposed(job: Job) -> ProposeReport:
    """As the command does with no options."""
    size = job.wheel.tread_diameter_mm
    least, most = (round(share * size) for share in SHARES)
    return propose(job, Wanted(least, most), lambda text: None)


def told(job: Job, report: ProposeReport) -> list[str]:
    """Lines of one track."""
    lines = [
        f"{report.screened:,} of {report.choices:,} wheels screened, {report.analysed} analysed"
    ]
    lines += [wheel_words(job, row, report.currency) for row in report.proposals]
    for row in report.proposals[:1]:
        lines += row.lessons
        lines += [f"look at: {line}" for line in row.warnings]
    return [*lines, *report.notes, *report.refused]


def wheel_words(job: Job, row: ProposalRow, currency: str) -> str:
    """One proposal in a line."""
    w = row.wheel
    sizes = (
        f"{w['tread_diameter_mm']:g} mm, {w['tread_from']} {w['tread_width_mm']:g} x "
        f"{w['tread_thickness_mm']:g}, flange {w['flange_depth_mm']:g} deep at "
        f"{w['flange_angle_deg']:g} deg of {w['flange_thickness_mm']:g}, discs "
        f"{w['disc_thickness_mm']:g}, beads {w['weld_throat_mm']:g}/{w['root_weld_mm']:g}"
    )
    own = "" if row.set_back_to_back_mm is None else " (set)"
    touch = contact_in_curve(proposed_job(job, row).setting)
    share = 100 * touch.down_mm / w["flange_depth_mm"]
    where = (
        f"touches {touch.below_mm:.1f} below and {touch.ahead_mm:.0f} ahead, at {share:.0f} % of "
        "its depth"
    )
    return (
        f"{row.rank} {row.kind or 'next'}: {sizes}; play {row.play_mm:.1f}{own}, back to back "
        f"{row.back_to_back_mm:.1f}; {where}; "
        f"reserve {reserve_percent(row):.0f} %, {row.mass_kg:.1f} kg, "
        f"{row.cost_per_wheel:.0f} {currency}; set by {row.governs}; nearest: "
        f"{row.binds.split(':')[0]}, {100 * row.binds_margin:.1f} %"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
