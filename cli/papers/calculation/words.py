"""What the calculation says in words: what it is for, what it takes for granted, who decides."""

from __future__ import annotations

from typing import Final

FOR: Final = (
    "This calculation is for the engineer who is to sign for the wheels of this job. It is made "
    "from the checks themselves: each equation is read off the program's own lines as it judged, "
    "with the numbers of this job, so that no number here can differ from a check's. It is an aid "
    "and no approval. Local codes, the rules for railways on your land, licensed engineers and "
    "licensed welders come first; a check that passes is no permission to run, and people may ride "
    "only where those who are competent allow it.",
)
ASSUMED: Final = (
    "The wheel is as the job file says and as the drawings of this job show it, welded as drawn; "
    "dimensions, steel and welds are proved by whoever makes and accepts it.",
    "Loads follow from track, wagon and use as stated; what was not measured is a default with its "
    "reason. The rating is of the heaviest wheel at a rail joint in the tightest curve, all other "
    "loads of the life in proportion.",
    "Units are mm, N, N/mm2, kg and s unless a symbol says otherwise; angles in equations are in "
    "radians, rad() and deg() turn them. hypot(a, b) is the root of the sum of squares, ceil and "
    "floor the next whole number up and down, ^ a power.",
    "Closed forms screen; the load rating is by stress analysis. Where both judge one matter, the "
    "stricter holds.",
    "Numbers are printed to five figures and worked out with sixteen.",
)
NOT_COVERED: Final = (
    "rails, sleepers, bridges, the wagon's frame, couplings, springs and brakes as structures",
    "the maker's welding procedure, welders' tests, inspection of welds",
    "operation: signals, speeds kept, loading beyond the stated payload, people on the track",
    "steel bought without certificate: strengths are those of the standard's grade",
)
CAUTIONS: Final = (
    "A sealed hollow explodes in a zinc bath: see the checks of the vents. Never weld on zinc.",
    "Prove one wheel before people ride: press it on a rail with 1.5 times its rated load, measure "
    "run-out before and after. Lift heavy things with help; a wagon needs a brake or a scotch "
    "where the track falls.",
)
RATED: Final = {  # the results of the stress analysis, in the order of the paper
    "rating-new": "The least of the loads that the judged limits allow, wheel new, against the "
    "design wheel load Q.",
    "rating-worn": "The same with the tread worn by its allowance.",
    "life": "The stated way over Miner's sum of the place that it harms most, of new and worn the "
    "worse.",
    "plate-tolerance": "What thickness of steel the rating took.",
}
SIDES: Final = {  # how their value and limit are called, and whence the limit is
    "rating-new": ("Q_new", "Q", "design wheel load, chapter of loads"),
    "rating-worn": ("Q_worn", "Q", "design wheel load, chapter of loads"),
    "life": ("life", "way", "use.km_per_year × use.years"),
    "plate-tolerance": ("thinnest", "limit", ""),
}
NOTCHES: Final = (
    "K_f = 1 + q (K_t - 1), q = 1 / (1 + √(a / r)), Neuber's a for bending and torsion by R_m; K_t "
    "of a keyway 2.14 in bending and 3.0 in torsion, its corner r 0.02 d, a set screw's dimple "
    "taken as one: Shigley, chapters 6 and 7, from memory; of shoulders by fits of Peterson's "
    "charts; K_f of a press fit and of a ring pressed on 2.0: Peterson, from memory."
)
NOT_SET_OUT: Final = (
    "Its formula could not be set out: value, limit and source are the check's own; work it out "
    "by another way before you sign."
)
IN_MEMORY: Final = (
    "These clauses are quoted from memory, are common practice or our own choice, and have no "
    "source that was read: look each up before you sign."
)
SIGNATURES: Final = ("Worked out by", "Checked by", "Engineer responsible, licence no.")
