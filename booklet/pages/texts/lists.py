"""Floor 11, lists: the words of the glossary, the skills and the tools a booklet may name."""

from __future__ import annotations

from booklet.kit.words import phrase

GLOSSARY = {
    "allowance": (
        phrase("allowance", context="glossary"),
        phrase("The strip of cloth between the seam line and the cut edge."),
    ),
    "applied": (
        phrase("applied shape", context="glossary"),
        phrase("A shape laid on the sewn block and sewn down along its edge."),
    ),
    "backing": (
        phrase("backing", context="glossary"),
        phrase("The cloth at the back of the quilt."),
    ),
    "backstitch": (
        phrase("backstitch", context="glossary"),
        phrase("A stitch back over the last one, to hold the thread."),
    ),
    "batting": (
        phrase("batting", context="glossary"),
        phrase("The soft middle layer; in Britain called wadding."),
    ),
    "binding": (
        phrase("binding", context="glossary"),
        phrase("The folded strip that closes the edge of the quilt."),
    ),
    "block": (
        phrase("block", context="glossary"),
        phrase("A unit of the quilt made from patches."),
    ),
    "border": (
        phrase("border", context="glossary"),
        phrase("Strips sewn round the joined blocks."),
    ),
    "chain": (
        phrase("chain piecing", context="glossary"),
        phrase("Feeding units under the needle one behind the other without cutting the thread."),
    ),
    "cornerstone": (
        phrase("cornerstone", context="glossary"),
        phrase("The square where two sashes cross."),
    ),
    "fan": (
        phrase("fan", context="glossary"),
        phrase("At a point, all allowances lie the same way round."),
    ),
    "web": (
        phrase("fusible web", context="glossary"),
        phrase("A film on paper that melts under the iron and holds a shape on its ground."),
    ),
    "finished": (
        phrase("finished", context="glossary"),
        phrase("Measured from seam line to seam line, as it is in the quilt."),
    ),
    "fussy": (
        phrase("fussy cut", context="glossary"),
        phrase("Cut so that a chosen motif of the print sits in the patch."),
    ),
    "foundation": (
        phrase("foundation", context="glossary"),
        phrase(
            "The paper on whose printed lines a section of a block is sewn; it is torn out at the end."
        ),
    ),
    "grain": (
        phrase("grain", context="glossary"),
        phrase("The direction of the threads of the cloth. It stretches least along the selvedge."),
    ),
    "matching_point": (
        phrase("matching point", context="glossary"),
        phrase("Where two seam lines meet: the dot at the end of a seam line."),
    ),
    "nest": (
        phrase("nest", context="glossary"),
        phrase("At a crossing, the two allowances lie in opposite directions and lock."),
    ),
    "partial": (
        phrase("partial seam", context="glossary"),
        phrase("A seam sewn only part of the way and finished later."),
    ),
    "patch": (phrase("patch", context="glossary"), phrase("One piece of cloth of the top.")),
    "run": (
        phrase("run", context="glossary"),
        phrase("Seams sewn one after the other in one go, turning at the matching points between."),
    ),
    "sashing": (
        phrase("sashing", context="glossary"),
        phrase("Strips between the blocks; one of them is a sash."),
    ),
    "section": (
        phrase("section", context="glossary"),
        phrase("A part of a block that is sewn on one paper."),
    ),
    "selvedge": (
        phrase("selvedge", context="glossary"),
        phrase("The woven edge of the cloth. Cut it away before you measure."),
    ),
    "set_in": (
        phrase("set-in", context="glossary"),
        phrase("A seam that turns a corner: one side fills an inward corner of the other."),
    ),
    "template": (
        phrase("template", context="glossary"),
        phrase("The printed shape a patch is cut from."),
    ),
    "unit": (
        phrase("unit", context="glossary"),
        phrase("What a step makes from patches and earlier units."),
    ),
}
"""By key: a word, and what it means."""

SKILLS = {
    "straight": phrase("Straight seams, edge to edge or point to point."),
    "set_in": phrase("Set-in corners: stop at the matching point, turn, go on."),
    "curved": phrase("Curved seams: pin the middle, then the ends, ease the rest."),
    "foundation": phrase("Sewing on printed paper: fold, trim, sew on the line, press over."),
    "hand": phrase("Hand piecing with a short running stitch."),
    "papers": phrase("Basting over papers and whip-stitching by hand."),
    "turned under": phrase("Applied shapes: turn the edge under and sew it down."),
    "fused": phrase("Applied shapes: fuse them and sew over their raw edges."),
    "chain": phrase("Chain piecing by machine."),
    "partial": phrase("Partial seams: sew part of the way and finish later."),
    "fussy": phrase("Fussy cutting with a clear template."),
}
"""By key: what the sewer must know."""

TOOLS_TEMPLATES = (phrase("Card or template plastic for the templates"),)
TOOLS = (
    phrase("Sharp pencil and a white pencil for dark cloth"),
    phrase("Fine pins"),
)
TOOLS_CLIP = (phrase("Small pointed scissors, to clip allowances"),)
TOOLS_MACHINE = (
    phrase("Sewing machine with a straight-stitch needle, 70/10 or 80/12"),
    phrase("Cotton thread, 50 weight"),
)
TOOLS_HAND = (
    phrase("Hand sewing needles, sharps 9 or 10"),
    phrase("Thimble"),
    phrase("Cotton thread, 50 weight"),
)
TOOLS_PAPERS = (
    phrase("Stout paper for the papers, and scissors for paper"),
    phrase("Basting thread, or a glue stick made for cloth"),
    phrase("Small clips"),
)
TOOLS_FOUNDATION = (
    phrase("A postcard or thin card, to fold the paper over"),
    phrase("Tweezers, to take out scraps of paper"),
)
TOOLS_APPLIED = (
    phrase("Thread in the colors of the applied shapes"),
    *TOOLS_CLIP,
    phrase("Basting thread, or a glue stick made for cloth"),
    phrase("A light table or a bright window, to lay the placement guide under the block"),
)
TOOLS_BORDERS = (phrase("Tape measure"),)
TOOLS_LAYERS = (
    phrase("Safety pins or basting thread, to hold the layers together"),
    phrase("Thread for quilting"),
)
TOOLS_SEWN_DOWN = (phrase("Hand sewing needles, sharps 9 or 10"),)
TOOLS_PRESS = (phrase("Iron, and a firm surface to press on"),)
