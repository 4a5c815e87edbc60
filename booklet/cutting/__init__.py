"""Floor 7: cut outlines, rotary methods, cutting plans and amounts of cloth."""

from booklet.cutting.stage import cut as cut
