"""A spoked hub disc of one's own in the wheel: its solids, its mass, its cost.

Five openings, each two arcs and two straight edges of spokes. No check knows such a disc: it is no
wheel to ride on before someone has judged its strength.
"""

import math

from platewheel import Arc, Blank, Circle, Line, SpecError, demo, disc_blank, wheel, wheel_mass_kg

job = demo()
spec = job.job.wheel
plain = disc_blank(spec)


def opening(turn_deg, inner_mm=55.0, outer_mm=115.0, spoke_mm=30.0):
    """Between two spokes that are as wide at the hub as at the rim; arcs about the axis."""
    ends = [math.degrees(math.asin(spoke_mm / 2 / r)) for r in (outer_mm, inner_mm)]
    far = Arc((0.0, 0.0), outer_mm, turn_deg + ends[0], 72 - 2 * ends[0])
    near = Arc((0.0, 0.0), inner_mm, turn_deg + 72 - ends[1], 2 * ends[1] - 72)
    return (far, Line(far.end, near.start), near, Line(near.end, far.start))


holes = (Circle((0.0, 0.0), spec.hub_hole_diameter_mm / 2), *(opening(72 * k) for k in range(5)))
disc = Blank("spoked", "disc", spec.disc_thickness_mm, plain.outline, holes)
print(f"{disc.area_mm2 / plain.area_mm2:.0%} of a plain disc")
print(f"{wheel_mass_kg(spec, disc=disc):.2f} kg, plain {wheel_mass_kg(spec):.2f} kg")
wheel(spec, disc=disc).export("spoked.step")

own = job.with_disc(disc)
print(own.nest(effort="quick").lines()[0])
print(f"{own.cost().per_wheel:.2f} a wheel, plain {job.cost().per_wheel:.2f}")
print(own.check(quick=True).lines()[0])

try:
    wheel(spec, disc=Blank("wide", "disc", spec.disc_thickness_mm, Circle((0.0, 0.0), 150.0)))
except SpecError as error:
    print(error)
