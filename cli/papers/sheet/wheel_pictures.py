"""The pictures of the wheel in the job sheet: section, parts pulled apart, view that turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.exploded import exploded_picture
from platewheel.cli.papers.drawings.section import section_picture
from platewheel.cli.papers.drawings.turning_scene import turning_scene
from platewheel.cli.papers.html.render import drawn, render
from platewheel.parts.wheel.assembly import wheel_solids

if TYPE_CHECKING:
    from markupsafe import Markup


def wheel_pictures(job: Job) -> Markup:
    """Figures for the section 'The wheel', lengths in the units of the paper.

    The 3-D view turns under the finger with its own data and script, without network.
    Raises: GeometryError naming a part that the modeller cannot build.
    """
    units = job.paper.units
    solids = dict(wheel_solids(job.wheel))
    return render(
        "wheel.html",
        units,
        section=drawn(section_picture(job.wheel, units)),
        apart=drawn(exploded_picture(job.wheel, solids, units)),
        mesh=turning_scene(job.wheel, solids),
    )
