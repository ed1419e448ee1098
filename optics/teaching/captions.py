"""Short captions for the classroom: what each result means, by the name of the result."""

CAPTIONS: dict[str, str] = {
    "standard.plane": "A plane laid through all the depths so that the squares of what is left "
    "over are least: every reading has its say, none the last word.",
    "standard.minimax": "The plane a straight-edge would find: it makes the worst reading as good "
    "as it can be, and lets one bad reading pull it.",
    "standard.tilt": "Tilt: the top of the standard leans out or in. In the picture, top and "
    "bottom are sharp at different distances.",
    "standard.swing": "Swing: one side of the standard leans out or in. In the picture, left and "
    "right are sharp at different distances.",
    "standard.lean": "Tilt and swing together, as one angle with one direction.",
    "standard.mean": "The mean of the depths: moved alone, it changes the focus of the whole "
    "picture and no corner against another.",
    "standard.flatness": "Shims cure a standard that leans. One that is bent lies on no plane, "
    "and the readings show it by what they leave over.",
    "standard.defocus": "Each corner's focus error. A leaning lens counts 1 + m times, because it "
    "tilts the image it throws; a leaning film counts once.",
    "standard.screws": "Three screws carry any plane. Four carry one only if their shims agree; "
    "else the mount rocks, or bends when tightened.",
    "gate.play": "The channel is deeper than the film is thick, so that the film can run. What is "
    "over is play, and the emulsion may lie anywhere in it.",
    "gate.error": "The ground glass is not the film: the lens is set to the one and takes the "
    "picture on the other.",
    "witness.combination": "Moving one start shifts the lens by millimetres, another mark by "
    "tenths: each pair has its own focus error, and only one is near none.",
    "witness.probability": "How strongly the reading speaks for each pair, if all were equally "
    "likely before. A poor reading leaves several standing.",
    "witness.entry": "A thread of several starts can be entered at as many places round the "
    "barrel. Entered further on the way it extends, the lens ends farther in.",
    "budget.combined": "Independent errors seldom all fall the same way: they add as the sides of "
    "a right angle do, by their squares.",
    "budget.worst": "Every error at its limit and all the same way: rare, but never worse.",
    "budget.next": "The largest term rules the sum: until it is cured, work on the small ones "
    "hardly shows.",
}
