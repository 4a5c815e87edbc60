"""Floor 0, walls: worker processes that the system keeps within limits. What strangers made is read only there."""

from booklet.walls.limits import Limits
from booklet.walls.process import Gone, Worker

__all__ = ["Gone", "Limits", "Worker"]
