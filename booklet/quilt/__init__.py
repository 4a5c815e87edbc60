"""Floor 6: the quilt. Blocks are set, sashed, bordered, backed and bound."""

from booklet.quilt.quilting import set_quilts as set_quilts
