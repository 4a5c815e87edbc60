"""Floor 5: pressing. Assemblies get the direction in which every allowance lies."""

from booklet.pressing.fans import fan_report
from booklet.pressing.layers.thickness import bulk_map
from booklet.pressing.meetings.neighbours import RimMeeting, rim_clashes, rim_meetings
from booklet.pressing.meetings.touching_rims import RimEnd
from booklet.pressing.pressing import FanReport
from booklet.pressing.stage import press, press_size

__all__ = [
    "FanReport",
    "RimEnd",
    "RimMeeting",
    "bulk_map",
    "fan_report",
    "press",
    "press_size",
    "rim_clashes",
    "rim_meetings",
]
