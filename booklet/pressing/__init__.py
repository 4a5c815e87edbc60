"""Floor 5: pressing. Assemblies get the direction in which every allowance lies."""

from booklet.pressing.layers.thickness import bulk_map
from booklet.pressing.meetings.neighbours import rim_clashes, rim_meetings
from booklet.pressing.stage import press

__all__ = ["bulk_map", "press", "rim_clashes", "rim_meetings"]
