"""Floor 12, walls: documents are laid out by worker processes that the system keeps within limits."""

from booklet.walls.pool import Layouts, WallError

__all__ = ["Layouts", "WallError"]
