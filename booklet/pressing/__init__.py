"""Floor 5: pressing. Assemblies get the direction in which every allowance lies."""

from booklet.pressing.layers.thickness import bulk_map as bulk_map
from booklet.pressing.meetings.neighbours import (
    rim_clashes as rim_clashes,
    rim_meetings as rim_meetings,
)
from booklet.pressing.stage import press as press
