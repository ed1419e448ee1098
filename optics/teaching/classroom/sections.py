"""The sections of the classroom, in the order in which one thing leads to the next."""

from optics.teaching.classroom.section import Section, relations_in
from optics.theory import (
    cam,
    certainty,
    collimation,
    depth,
    front_cell,
    front_cell_depth,
    gate,
    helicoid,
    lens,
    rangefinder,
    scale,
    standard,
)

_COUPLED = ("straight_coupling", "curved_coupling", "coupling_error", "gain_error")

LENS = Section(
    key="lens",
    title="Thin and thick lens",
    lead="unit_focusing",
    find="extension",
    idea="A lens at its infinity position throws the far world sharp one focal length behind it. "
    "Bring the subject nearer and the image moves back, so the lens must move out. A thick lens "
    "does the same, only that it has two planes to measure from: the front one for the subject, "
    "the rear one for the image. The gap between them, the hiatus, is simply lost on the tape.",
    shown="Above, to scale behind the lens: two rays from the subject's middle cross the front "
    "principal plane H, go on level to the rear one H′, and meet on the film; dotted, rays from "
    "infinity meet at F′. Below: the extension against distance, even in 1/D, with the rule of "
    "thumb f²/D dashed.",
    try_this=(
        "Slide the distance from ∞ to 1 m and watch the gap between F′ and the film: half the "
        "gap at twice the distance.",
        "Double the focal length at the same distance: four times the extension, not twice.",
        "Give a hiatus of 10 mm. The extension hardly changes far away, and more the nearer you "
        "come.",
        "Type 18 cm with f 47: refused, for nearer than 4f + h nothing is sharp on the film.",
    ),
    trap="f²/(D − f) is right from the lens, not from the film. With f 50 and the tape at the "
    "film, 1 m calls for 2.786 mm, not 2.632: fifteen hundredths too little, more than twice the "
    "depth of focus at f/2.",
    relations=relations_in(lens),
)

HELICOID = Section(
    key="helicoid",
    title="Helicoid and starts",
    lead="ring_rotation",
    find="rotation",
    idea="A thread is a ramp rolled round the barrel. Several ramps run side by side, so that the "
    "lens can move far in one turn without a thread so coarse that it strips. Each ramp is a "
    "start, and all look alike: nothing but the lens's focus tells which one it was.",
    shown="The thread unrolled: each line is one start, named at its end. The dot stands on the "
    "start in use, the square where the lens would stand on the start that it was moved to.",
    try_this=(
        "Move one start: the lens shifts by a pitch, while the ring shows the same.",
        "Make the starts 1. The lead is now the pitch, and there is nothing left to get wrong.",
        "Halve the lead: the same travel takes twice the turn, and the scale's marks spread.",
    ),
    trap="With six starts and half the number moved, forwards and backwards are the same place "
    "round the barrel but a whole lead apart in travel. Mark the parting point before it lets go.",
    relations=relations_in(helicoid),
    extras=("starts", "starts_moved"),
)

FRONT_CELL = Section(
    key="front_cell",
    title="Front-cell focusing",
    lead="group_movement",
    find="movement",
    idea="Only the front group moves, and the rear groups must never notice: its image has to stay "
    "where it was. The front group is shorter than the whole lens, and movement goes with the "
    "square of the focal length. So the cell moves less, and each hundredth of it counts more at "
    "the film.",
    shown="Movement against distance, even in 1/D: the front cell (line), and what the whole lens "
    "would need (dashes). The diamond is the distance chosen.",
    try_this=(
        "Make the group's focal length that of the whole lens: the lines fall together.",
        "Find the focal length of the group from one movement and its distance: that is how a "
        "cell without papers is measured.",
        "Choose the relation Film effect: what does 0.1 mm of the cell make at the film?",
        "Choose Cell depth near and set another movement: the room at the film, N·c, stays as it "
        "is, for nothing behind the cell moves. With a lens that moves whole it grows close up.",
    ),
    trap="The cell's thread error is not the film's error. It is multiplied by (f/f₁)², about two "
    "for a triplet: a cell 0.05 mm out is a picture 0.1 mm out.",
    relations=(*relations_in(front_cell), *relations_in(front_cell_depth)),
    extras=("focal_length",),
    values={
        "focal_length": "75 mm",
        "group_focal_length": "51 mm",
        "cell_to_film": "92 mm",
        "lead": "9 mm",
    },
)

COLLIMATOR = Section(
    key="collimation",
    title="Collimator and parallax",
    lead="collimator_conjugates",
    find="focus_error",
    idea="A collimator puts infinity on the bench: a reticle in the focus of a good lens looks as "
    "far away as a star. If the camera shows it sharp only after the reticle is moved, the camera "
    "was not at infinity, and the movement says by how much. With a ground glass and a loupe, "
    "parallax tells the side: an image that moves with the eye lies beyond the cross, too near "
    "the lens.",
    shown="Reticle on the left, its lens, the camera's lens and focal plane. Shift and error are "
    "drawn far too large, each in its own scale. Circle: the collimator's focus. Square: the "
    "reticle. Diamond: where its image falls against the camera's focal plane.",
    try_this=(
        "Shift the reticle by plus and by minus 2 mm: inside the focus it acts as a near subject, "
        "outside as one beyond infinity, which no real subject can be.",
        "Take a collimator four times as long as the lens: the reticle moves some sixteen times "
        "the error, and is as much easier to read.",
        "Shift the reticle by 5 mm and slide the lenses from touching to f + f_c apart: there, "
        "and only there, δ(f/f_c)² is exact.",
        "Find the reticle's shift for an error of 0.01 mm: can your slide be read so finely?",
    ),
    trap="A collimator that is itself out by δ shows every lens wrong by δ(f/f_c)², and always the "
    "same way. Check it by autocollimation with a flat mirror before blaming cameras.",
    relations=relations_in(collimation),
    # So far out is a lens 60 mm before the collimator with the shift that the page begins with.
    values={"sharp_distance": "1.46 m", "focus_error": "0.0494 mm"},
)

DEPTH = Section(
    key="depth",
    title="Depth of field and focus",
    lead="depth_near",
    find="near_limit",
    idea="Every point is a cone of light with its tip in the image and its base on the lens. Where "
    "the film cuts the cone away from the tip there is a disc, and while the disc is smaller than "
    "what is taken as sharp, nobody minds. Behind the lens that is depth of focus; laid out in "
    "front of it, depth of field. It is one thing, seen from two sides. Here the whole lens moves, "
    "and close up the cone grows longer; a front cell leaves it as it is.",
    shown="Above: what is sharp, on a scale even in one over the distance; square near limit, "
    "diamond focus, triangle far limit, cross hyperfocal. Below: the cone at the film, and the "
    "band in which the film may lie.",
    try_this=(
        "Stop down from f/2.8 to f/11: the cone grows slender, the band four times as wide.",
        "Focus on the hyperfocal distance (the cross): the far limit reaches ∞, the near limit is "
        "half of it.",
        "Double the focal length at the same aperture: what is sharp shrinks to about a quarter.",
        "Change the pupil magnification: far away it hardly matters, close up it does.",
    ),
    trap="The depth of focus forgives the camera nothing: it is spent already on the subject's "
    "own depth. Half of it for the adjustment is common practice, and the circle of "
    "confusion behind it a convention, not a fact.",
    relations=relations_in(depth),
    values={"limit_from_lens": "1.751 m", "f_number": "f/8", "depth_each_way": "0.26 mm"},
)

TRIANGLE = Section(
    key="rangefinder",
    title="Rangefinder triangle",
    lead="triangle",
    find="convergence",
    idea="Two windows a base apart look at one subject, and the angle between them says how far it "
    "is. The angle goes with one over the distance, just as the lens's extension does: hence the "
    "coupling. What the eye can see is an angle too, so the distance grows uncertain as its "
    "square, while the error at the film stays the same at every distance.",
    shown="Above: the triangle, not to scale. Below, both scales logarithmic: how far out the "
    "distance may be before the eye sees it (line), and what that makes at the film (dashes), "
    "flat all along.",
    try_this=(
        "Slide the distance: the line climbs two decades for each decade of distance; the dashes "
        "do not move.",
        "Halve the base, or the magnification: both errors double, for base and magnification "
        "count together.",
        "Put in a lens of 90 mm: four times the film error of 45 mm. Long lenses need long bases.",
    ),
    trap="Distances on the tape begin at the film, the triangle begins at the base line. Forget k "
    "and a near setting is out by 2 % at 1 m, while infinity looks perfect.",
    relations=relations_in(rangefinder, _COUPLED),
    extras=("finder_magnification", "eye_acuity", "focal_length"),
)

COUPLING = Section(
    key="coupling",
    title="Coupling error",
    lead="coupling_error",
    find="focus_error",
    idea="The sights follow an arc tangent of one over the distance, the lens a square equation. "
    "Both are nearly straight in 1/D, but not equally curved: the lens counts from 2f + h before "
    "the film, the sights from k. A straight coupling can be exact at two distances, and bows out "
    "between them.",
    shown="The lens's error when the finder says sharp, from infinity (left) to near: solid with "
    "circles for the zero and gain typed, dashed with triangles for a gain exact at infinity and "
    "at 1 m. The band is the depth of focus N·c.",
    try_this=(
        "Find the gain for an error of 0 at 1 m, then find the error again with that gain: the "
        "two lines fall together, and the bow between is what is left.",
        "Turn the zero alone: the whole line goes up or down. Turn the gain alone: it swings "
        "about infinity.",
        "Type two focal lengths for the base line's place, 94 mm: the dashed bow nearly vanishes. "
        "No camera is built so, but it shows the cause.",
    ),
    trap="Setting infinity and the near mark again and again to perfection does not make the "
    "middle right. Set near at a distance a little longer than the near mark's, where the worst "
    "error is least.",
    relations=tuple(_COUPLED),
    extras=("f_number", "circle_of_confusion"),
    values={"gain": "0.0174"},
)

CAM = Section(
    key="cam",
    title="Cam",
    lead="cam_lift",
    find="lift",
    idea="The body was cut for one lens and knows no other: its follower must be lifted as if that "
    "lens were on. A lens of another focal length moves by other amounts, and its cam translates. "
    "Far away that is a plain factor, the square of the focal lengths' ratio; near, the cam must "
    "bend.",
    shown="Lift of the follower against extension of the lens: the cam (line), the plain ratio "
    "(dashes), and lift equal to extension (dots), as the body's own lens has it. The diamond is "
    "the extension chosen.",
    try_this=(
        "Give the lens the body's own focal length and hiatus: the cam becomes a straight ramp "
        "and could be left out.",
        "Take 90 mm on a body for 50: the cam lifts less than a third of the extension.",
        "Change the hiatus by 5 mm: the lift changes by two thousandths of a millimetre. Change "
        "the focal length by 1 mm: by two hundredths. That is why two lenses marked alike may "
        "need cams of their own.",
    ),
    trap="Stoning takes metal off and never puts it back. Move the datum first, so that all that "
    "is to be removed is plus, and set the zero again afterwards.",
    relations=relations_in(cam),
    values={"focal_length": "90 mm", "body_focal_length": "50 mm", "extension": "3 mm"},
)

STANDARD = Section(
    key="standard",
    title="Tilt of the standard",
    lead="lens_tilt",
    find="image_tilt",
    idea="Subject plane, lens plane and sharp plane meet in one line. Lean the lens, and the sharp "
    "plane leans after it: once because the axis leans, and m times more because the subject now "
    "lies askew before the lens. Lean the film instead and it counts once.",
    shown="Above: film (thick), lens as it leans, and the sharp plane behind it, angles true. "
    "Below: the error up the frame for a leaning lens (circles) and for a film leaning as much "
    "(dashes, squares), over the depth of focus.",
    try_this=(
        "Set m to 0: far subjects. The sharp plane leans just as the lens does.",
        "Set m to 1, life size: a leaning lens counts twice.",
        "Find the lean that a picture 12 mm from the middle forgives at f/2.8: a few tenths of a "
        "degree.",
    ),
    trap="Shims under a standard with a bent strut cure one corner and spoil another. Lay the "
    "plane through all readings first; what it leaves over is no lean.",
    relations=relations_in(standard),
    extras=("place_up", "f_number", "circle_of_confusion"),
    values={"magnification": "0.5"},
)

GATE = Section(
    key="gate",
    title="Film gate",
    lead="emulsion_error",
    find="focus_error",
    idea="The lens is set on a ground glass, but the picture is taken on film, and the film needs "
    "room to run. Between rails and pressure plate it may lie anywhere in its play. The emulsion "
    "faces the lens, so a film hard on the rails is where the glass was; any other lies "
    "farther back.",
    shown="The gate cut through, depths drawn large, widths not: rails, film with its emulsion "
    "(thick edge) where it lies, and pressure plate. The dotted line is where the ground glass "
    "was focused.",
    try_this=(
        "Slide the film from the rails to the plate: that whole range is in every picture taken.",
        "Focus the glass in the middle of the play: the error is halved, plus or minus.",
        "Take the depth of focus N·c of the lens and compare it with half the play.",
    ),
    trap="A ground glass laid on the rails with its rough side away from the lens puts the "
    "focus two thirds of its thickness behind the film. Rough side to the lens, always.",
    relations=relations_in(gate),
    extras=("film_thickness",),
)

SCALE = Section(
    key="scale",
    title="Scale marks",
    lead="scale_mark",
    find="mark_angle",
    idea="A focusing scale is the lens written round a ring: extension over lead, turned into an "
    "angle. The marks crowd towards infinity because one over the distance does. Each scale "
    "belongs to one focal length and one thread, so the marks themselves tell for which they "
    "were made.",
    shown="The ring unrolled: above, the marks of this lens; below, those of a lens five in a "
    "hundred longer on the same thread. The diamond is the distance chosen.",
    try_this=(
        "Read both rows at 1 m: five in a hundred of focal length is more than ten of the angle.",
        "Halve the lead: every angle doubles.",
        "Shift the ring's infinity by 3°: all marks go with it, and the scale is wrong "
        "everywhere, most of all far away.",
        "Find the focal length from one mark and its angle.",
    ),
    trap="A scale that agrees at infinity and disagrees near has the wrong focal length or lead, "
    "not a slipped ring. A slipped ring is out by the same angle at every mark.",
    relations=relations_in(scale),
)

CERTAINTY = Section(
    key="certainty",
    title="Uncertainty",
    lead="weighted_mean",
    find="best_value",
    idea="No reading is the truth; each is a guess with a width. Independent widths add by their "
    "squares, like the sides of a right angle, so the largest rules. Two readings of one thing "
    "are joined by their certainties, one over the squares: the better one leads, and together "
    "they are better than either.",
    shown="Each reading with twice its standard uncertainty each way, and what they make together "
    "(diamond).",
    try_this=(
        "Make the second reading twice as uncertain as the first: it keeps a fifth of the say.",
        "Pull the readings apart to where their bars no longer touch: the mean is still worked "
        "out, and no longer means anything. Measure again.",
        "Among the relations: how many repeats until the instrument's limit is all that is left?",
    ),
    trap="Three readings are not a statistic: their scatter is itself known so poorly that for "
    "95 % the width must be 4.3 times, not twice. The pages of the bench reckon so.",
    relations=relations_in(certainty),
)

SECTIONS: tuple[Section, ...] = (
    LENS,
    HELICOID,
    FRONT_CELL,
    COLLIMATOR,
    DEPTH,
    TRIANGLE,
    COUPLING,
    CAM,
    STANDARD,
    GATE,
    SCALE,
    CERTAINTY,
)


def section_of(relation: str) -> Section:
    """The section that a relation of the catalogue belongs to."""
    return next(section for section in SECTIONS if relation in section.relations)
