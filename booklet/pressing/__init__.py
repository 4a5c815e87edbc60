"""Floor 5: pressing. Assemblies get the direction in which every allowance lies."""

from booklet.pressing.fans import fan_report
from booklet.pressing.layers import bulk_map
from booklet.pressing.neighbours import RimMeeting, rim_clashes, rim_meetings
from booklet.pressing.pressing import FanReport
from booklet.pressing.stage import press, press_size
from booklet.pressing.touching import RimEnd

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
