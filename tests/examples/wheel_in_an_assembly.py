"""A wheel in a cadquery assembly of one's own: two wheels on a plain axle, written as STEP.

The wheel's axis is Z, its field edge at z = 0, +Z to the middle of the track; so the second wheel
is turned about X, and both stand back to back as the job says.
"""

import cadquery as cq

from platewheel import demo, flange_cone, wheel

job = demo().job
inner = job.axle.back_to_back_mm or 420.0  # between the flanges' inner faces, mm
one = wheel(job.wheel, welds=False)
face = flange_cone(job.wheel).BoundingBox().zmax

pair = cq.Assembly(name="wheelset")
pair.add(one, name="left", loc=cq.Location((0, 0, -inner / 2 - face)))
pair.add(one, name="right", loc=cq.Location((0, 0, inner / 2 + face), (1, 0, 0), 180))
axle = cq.Workplane().circle(job.wheel.hub_bore_mm / 2).extrude(inner / 2 + 120, both=True)
pair.add(axle, name="axle", color=cq.Color("gray"))

pair.export("wheelset.step")
over = pair.toCompound().BoundingBox()
print(f"{over.zlen:.0f} mm over the axle, {over.xlen:.1f} mm over the flanges")
