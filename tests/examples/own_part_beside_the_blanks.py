"""A part of one's own, cut from the same plates as the wheels: a brake shoe bracket, 24 of them.

Whatever way round its lines run and wherever its origin lies, it is the same part; one that
crosses itself or is open is refused when the Blank is made.
"""

from platewheel import Arc, Blank, Circle, Line, SpecError, demo, polygon

job = demo()
bracket = Blank(
    name="brake-bracket",
    kind="extra",
    thickness_mm=job.job.wheel.disc_thickness_mm,
    outline=(
        Line((0.0, 0.0), (90.0, 0.0)),
        Line((90.0, 0.0), (90.0, 40.0)),
        Arc((45.0, 40.0), 45.0, 0.0, 180.0),
        Line((0.0, 40.0), (0.0, 0.0)),
    ),
    holes=(Circle((45.0, 40.0), 12.5), Circle((20.0, 14.0), 5.5), Circle((70.0, 14.0), 5.5)),
)
laid = job.with_part(bracket, 24, turns="quarter").nest(effort="quick")
print(laid)

for sheet, layout in enumerate(laid.layouts, 1):
    places = [one for one in layout.placements if one.blank.name == bracket.name]
    if places:
        first = places[0]
        where = f"({first.x_mm:.1f}, {first.y_mm:.1f}), turned by {first.rotation_deg:g} degrees"
        print(f"sheet {sheet}: {len(places)} brackets, the first at {where}")

try:
    Blank("bow", "extra", 6.0, polygon([(0.0, 0.0), (80.0, 60.0), (80.0, 0.0), (0.0, 60.0)]))
except SpecError as error:
    print(error)
