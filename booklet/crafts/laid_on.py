"""Floor 1, crafts: shapes laid on a sewn ground (applied): how they are cut, with an edge to turn under or a raw one."""

from __future__ import annotations

from booklet.crafts.method import Family, Method
from booklet.words import phrase

TURNED = Method(
    word="template with an edge to turn under",
    title=phrase("by template, edge turned under"),
    family=Family.FREE,
    how=phrase(
        "Draw round the template on the right side, then cut; the dashed line is where the edge is turned under."
    ),
)
FUSED = Method(
    word="template on fusible web",
    title=phrase("by template on fusible web"),
    family=Family.FREE,
    how=phrase(
        "Trace the reversed template on the paper of the web, cut it out roughly, fuse it to the wrong side of the cloth "
        "and cut on the line."
    ),
)
