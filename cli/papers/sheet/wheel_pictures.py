"""The pictures of the wheel in the job sheet: section, parts pulled apart, view that turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from platewheel.cli.job.job import Job
from platewheel.cli.papers.html.render import drawn, render
from platewheel.cli.papers.sheet.drawings import WheelDrawings

if TYPE_CHECKING:
    from markupsafe import Markup


def wheel_pictures(job: Job, wheel: WheelDrawings) -> Markup:
    """Figures for the section 'The wheel', lengths in the units of the paper.

    The 3-D view turns under the finger with its own data and script, without network.
    """
    return render(
        "wheel.html",
        job.paper.units,
        section=drawn(wheel.section),
        apart=drawn(wheel.apart),
        mesh=wheel.scene,
    )
