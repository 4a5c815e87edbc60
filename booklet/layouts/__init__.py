"""Floor 12, layouts: documents for print are laid out by workers behind walls, several at a time."""

from booklet.layouts.pool import Layouts as Layouts, WallError as WallError
