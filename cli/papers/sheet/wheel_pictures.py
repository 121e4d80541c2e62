"""The pictures of the wheel in the job sheet: section, parts pulled apart, view that turns."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.papers.drawings.exploded import exploded_picture
from platewheel.cli.papers.drawings.section import section_picture
from platewheel.cli.papers.drawings.turning_scene import turning_scene
from platewheel.cli.papers.html.turning_view import VIEW_STYLE, turning_view
from platewheel.parts.wheel.assembly import wheel_solids

WHEEL_STYLE = (
    """
figure.drawing svg{max-height:44rem}
@media(max-width:40rem){figure.drawing{overflow-x:auto}
  figure.drawing svg{min-width:46rem;max-height:none}}
@media print{figure.drawing svg{max-height:11cm}figure.apart svg{max-height:7.8cm}}
"""
    + VIEW_STYLE
)


def wheel_pictures(job: Job) -> str:
    """Figures for the section 'The wheel', lengths in the units of the paper.

    Raises: GeometryError naming a part that the modeller cannot build.
    """
    units = job.paper.units
    solids = dict(wheel_solids(job.wheel))
    sizes = "inches to 1/64" if units == "inch" else "mm"
    section = (
        f"Section, upper half; sizes in {sizes}. Welding symbols after ISO 2553, system A: the "
        "arrow touches the side to weld; a is the throat of a fillet, s the depth of a butt "
        "weld, none the full plate; a circle, all round; a bar, dressed flush. Solids: "
        "<code>solids/wheel.step</code>"
    )
    apart = "The parts in the order in which they go together, field side to the left"
    return (
        f"<figure class=drawing>{section_picture(job.wheel, units)}"
        f"<figcaption>{section}</figcaption></figure>"
        f'<figure class="drawing apart">{exploded_picture(job.wheel, solids, units)}'
        f"<figcaption>{apart}</figcaption></figure>"
        f"{turning_view(turning_scene(job.wheel, solids))}"
    )
