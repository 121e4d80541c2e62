"""A second opinion on the rating: the wheel with its vents, or with discs of the user's own, as a
3-D finite element deck.

Start at `deck.py`; the mesh is `meshing.py` (gmsh), what the loads are `loads.py`.
May import: rating, setting, wheel, geometry, base.
"""
