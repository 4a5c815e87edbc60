"""Floor 6: block against block. Whether the allowances nest where neighbouring blocks are joined."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.pattern import Size
from booklet.pressing.pressing import Pressing


def seam_clashes(size: Size, pressings: Mapping[str, Pressing]) -> int:
    """How many meeting seam ends of neighbouring blocks lie the same way and do not nest.

    PROVISIONAL: waits for the pressing floor's count along the rims of blocks.
    """
    return 0
