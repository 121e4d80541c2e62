"""What a line is that the code gives no sentence: names within functions, by module and name.

A function says itself what it gives (its docstring), a constant too (the comment beside it).
"""

from __future__ import annotations

from typing import Final

from platewheel.parts.workings.terms import ModuleNames, Quantity, by_module

MEANINGS: Final[ModuleNames] = {
    "axle_bending": {
        "push": "side force on the axle, either way",
        "least": "greatest moment that bends the other way, of load and push",
    },
    "axle_fatigue": {
        "decades": "powers of ten between the two ends of the S-N line",
        "factors": "surface and size together",
    },
    "axle_strength": {
        "moment": "greater of the moments either way",
        "x_mm": "along the axle, from its middle",
    },
    "axle_turning": {
        "half": "from the axle's middle to a bearing",
        "lean": "greatest slope of the axle in a bearing",
    },
    "bearing_life": {
        "c_n": "dynamic load rating of the bearing (catalogue)",
        "tread_diameter_mm": "of the wheel",
    },
    "bearings": {
        "_mean_load_n": "cubic mean over the turns of all blocks of the spectrum of P = X F_r + "
        "Y F_a, F_r as in the static check with the load at a joint and nothing on the other "
        "wheel, F_a the side force, X and Y by F_a / C_0",
        "c0_n": "static load rating of the bearing (catalogue)",
        "light": "load of the lighter wheel of the axle",
        "lever": "rail contacts over bearing centres",
        "uneven": "reaction of the bearing at the heavier wheel",
        "screws": "what the set screws of an insert hold along the axle",
    },
    "braking": {"slope": "angle of the gradient"},
    "climb": {
        "push": "share of the pushers' force that presses the flange outwards",
        "sine": "sin of the flange angle",
        "cosine": "cos of the flange angle",
        "lateral_over_vertical": "Y / Q with the reserve against climbing",
    },
    "coating": {"years": "years that the coating lasts"},
    "contact": {
        "diameter": "of the tread",
        "least": "mean wheel load of the empty wagon",
    },
    "contact_patch": {"flat": "flat of the rail head between its rounded corners"},
    "corner_contact": {
        "force": "square to the flange's face",
        "limit": "pressure that a sliding contact bears for ever",
    },
    "crossings": {
        "most": "greatest back to back",
        "narrow": "narrowest flangeway",
        "worn": "depth of the flange below the worn tread",
    },
    "curve": {
        "angle": "flange angle in radians",
        "curve": "radius of the tightest curve, mm",
        "curve_radius_mm": "radius of the tightest curve",
        "skew": "yaw that play and wheelbase allow beyond the square place",
    },
    "curving": {
        "attack": "yaw of the leading axle",
        "asked": "difference of the two rails' lengths over their mean, which the curve asks",
        "given": "difference of rolling that a taper gives, over the mean",
        "curve_radius_mm": "radius of the tightest curve",
        "skewed": "centre of friction behind the leading axle, wagon skewed as far as play lets it",
        "half": "half the distance of the rail contacts",
        "centre": "centre of friction behind the leading axle",
        "moment": "friction of all treads about that centre, over friction x wheel load",
        "place_mm": "axle behind the leading one",
        "along": "that axle ahead of the centre of friction",
        "radius": "contact from the centre of friction",
        "difference": "friction of all treads across the track, over friction x wheel load",
        "push": "push on the leading outer flange, over friction x wheel load",
        "net": "of it, what is left behind the friction of that wheel's own tread",
        "lean": "angle from the centre of gravity to the line the wagon tips about",
    },
    "disc_buckling": {
        "load": "load of one disc",
        "stress": "mean compression under the ring",
        "strip": "width of ring that acts as a flange of the web, EN 1993-1-5, 6.5(1)",
        "squash": "yield force of the loaded length",
        "height": "of the disc between hub and ring, as of a web",
        "slenderness": "square root of yield over buckling force",
    },
    "disc_load": {
        "against": "rail's middle on the tread, flange against its rail",
        "away": "rail's middle on the tread, the other flange against its rail",
        "inertia": "second moment of area of the half ring over one disc",
    },
    "flange_contact": {
        "worn": "corner radius of a worn rail",
        "k": "tan of yaw x tan of the flange angle",
        "below": "contact below the rail's top on the corner's round",
        "narrow": "the cone yawed: how much narrower its section is",
        "down": "contact below the tread, along the radius",
        "share": "of the flange's depth",
        "there": "section of flange that may wear off",
        "mean": "mean wheel load over loaded and empty way",
        "push": "square to the flange's face, mean of the way",
        "tangential_n": "friction at the flange",
        "across": "sliding across the rail over the way rolled",
        "work": "work of sliding on each metre, T gamma",
        "lost": "section lost, mean of the whole way",
        "years": "until the allowance is gone",
    },
    "flange_strength": {
        "radial": "rail's push below the tread, along the radius",
        "angle": "between flange and ring",
        "face": "width of the bead's face",
        "force": "design force on a mm of root",
        "moment_n": "design moment on a mm of root",
        "root": "of the quadratic equation F / a + 6 M / a^2 = f_w",
    },
    "flange_window": {
        "least": "least flange angle that does not climb",
        "inside": "from it to the flange's angle",
    },
    "hollows": {
        "rim": "greater of the two discs' diameters",
        "area": "of the faces under a fillet",
    },
    "hub_disc": {"top": "outer face of the gauge disc"},
    "hub_strength": {
        "stress": "bending stress at the tube's outside",
        "wall": "wall of the tube",
    },
    "hub_tube": {
        "found": "wall of the tube",
        "middle": "between the discs' outer faces",
    },
    "joint": {
        "speed": "in m/s",
        "both": "mass of wheel and track that move together",
        "joint": "stiffness of the track at a rail end",
        "k": "the same in N/m",
        "damped": "what damping of the track leaves of the blow",
        "moved": "what the track's mass and damping leave of the blow",
        "drop": "step and drop in the gap",
        "diameter_mm": "of the tread",
    },
    "numbers": {"mass": "loaded wagon"},
    "play": {
        "play": "of new wheels in the tightest gauge",
        "most": "of worn wheels in the widest gauge",
        "off_rail": "root of this wheel's flange off its rail, the other flange hard over",
    },
    "plate_webs": {
        "outer": "steel between vent and rim",
        "inner": "steel between vent and hub hole",
        "web": "lesser of both",
    },
    "points": {
        "free": "root of the flange off the nose's running edge, wheel at its furthest",
        "left": "tread on the wing rail",
        "outer": "radius of the flange tip",
        "inner": "radius of the worn tread",
        "half_chord": "half the flange's chord at rail-top level",
        "chord": "wheelbase over twice the radius of the tightest curve",
        "square": "yaw of the axle lying square in the curve",
        "travel": "of worn wheels in the widest gauge",
    },
    "resistance": {
        "resistance": "force over weight, on the level",
        "slope": "angle of the gradient",
    },
    "rolling": {
        "ratio": "mean radius over wall",
        "inside": "least inside diameter of the flange",
        "thickness": "of the thickest plate",
        "radius": "mean radius of the ring",
    },
    "rough_track": {
        "left": "flange below the rail's top at the lifted wheel",
        "axle_load": "mean of the loaded wagon",
        "force": "push at the axle",
    },
    "rules": {"outside": "tread radius there"},
    "section": {"length": "of the flange's face, root to tip"},
    "setting": {
        "gross": "loaded wagon",
        "reach": "half the flange's chord at rail-top level",
        "chord": "wheelbase over twice the radius of the tightest curve",
        "back": "least back to back",
        "both": "check rail's and nose's flangeway together",
        "backs": "either flangeway that the backs of the flanges ask",
    },
    "speed": {
        "cant": "angle of the track",
        "speed": "in km/h",
        "lacking": "beyond the cant that is there",
    },
    "steel": {"thickness_mm": "thickest of the plates"},
    "steering": {"drag": "of all wheels of the wagon"},
    "thickness_ratio": {"ratio": "thickest over thinnest"},
    "tolerance": {"needed": "gap on the radius"},
    "track": {"more": "usual tolerance where the job gives none"},
    "travel": {"speed": "in m/s", "share": "sideways force over weight at this speed"},
    "tread_ring": {
        "half_wall": "half the ring's wall along the radius",
        "length": "of the strip",
    },
    "twist": {
        "off": "how much more than the mean the heaviest wheel has, by how the load lies",
        "change_mm": "height of one rail over a wheelbase: twist and joint step",
        "soft": "of the track and, where there are springs, of a spring",
        "wheel_stiffness_n_per_mm": "under one wheel",
        "sinking": "of the four wheels for one newton on a diagonal",
        "frame_torsion_n_mm2": "torsional stiffness G J of the frame",
    },
    "usual_clearance": {
        "play": "by published standards, no less than the tightest place asks",
        "backs_mm": "greater of what backs and flange ask",
    },
    "vent_tables": {
        "holes": "vents of one side of the box",
        "as_one": "diameter of one hole of their area",
        "middle": "z of the box's middle",
        "diagonal": "of the box's section",
    },
    "vents": {
        "gauge_side": "radius of the gauge disc",
        "wall": "inside radius of the ring",
        "gap": "vent's edge to the ring's wall",
        "field_side": "radius of the field disc",
        "least": "nearest that web and bead let it be",
    },
    "wear": {"lost": "plate that may wear off"},
    "weld_access": {
        "bore": "inside radius of the ring at this recess",
        "tube": "hub tube beyond the disc",
        "angle": "between flange and ring",
    },
    "weld_room": {"leg": "shortest leg there is room for"},
    "weld_strength": {
        "radial": "of the wheel load on a mm of bead",
        "circle": "diameter of the weld's circle",
        "axial": "of side force and its moment on a mm of bead",
        "needed": "throat that carries the design force",
        "share": "wheel load of one disc",
        "couple": "side force's moment as a couple on the two discs",
        "sideways": "of the side force on a mm of bead",
        "by_couple": "moment carried by a couple of the two welds",
        "by_bending": "moment carried by the circles bent each in its plane",
    },
    "welds": {"box": "between the discs' outer faces"},
    "wheel_holding": {
        "size": "set screw in inches",
        "part": "place between the two sizes of the table",
        "share": "1 less the square of the hub's inside over outside",
    },
    "wheel_load": {
        "share": "of full sliding",
        "outward": "speed's push on the flange, over the mean wheel load",
        "sideways": "greater of speed's and cant's push, over weight",
        "over": "what it adds to the outer wheel, over the mean load",
        "squares": "sum of the squares of the axles' places from the wagon's middle",
        "along": "what the gradient adds to an end axle, over the mean load",
        "even": "heaviest wheel on even track",
        "most": "no wheel has more than the whole wagon",
    },
    "wheel_retention": {
        "holds": "what the set screws hold",
        "_screwed": "push over what they hold",
        "force": "round the axle and along it",
        "force_n": "round the axle and along it",
        "least": "least overlap less what the surfaces lose",
        "most": "greatest overlap less what the surfaces lose",
        "share": "greatest share used of what holds the wheel",
        "bearing": "straight side of the key, its round ends left out",
        "fy": "yield strength of the weaker of hub and axle",
        "round_n": "at the axle's surface, round it",
        "outwards": "friction of the tread, outwards",
        "turning": "of the torque on a mm of bead",
        "along": "of the push on a mm of bead",
        "across": "of the push's moment and the load on a mm of bead",
    },
    "wagon": {"there": "people whom the push stands for"},
}


def meaning_of(one: Quantity) -> str:
    """What is said of it here, or else what it says of itself; empty where neither."""
    said = by_module(MEANINGS, one.home, one.name)
    return one.says if said is None else said
