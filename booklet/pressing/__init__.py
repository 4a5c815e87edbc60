"""Floor 5: pressing. Assemblies get the direction in which every allowance lies."""

from booklet.pressing.neighbours import RimEnd, RimMeeting, rim_clashes, rim_meetings
from booklet.pressing.press import press, press_size

__all__ = ["RimEnd", "RimMeeting", "press", "press_size", "rim_clashes", "rim_meetings"]
