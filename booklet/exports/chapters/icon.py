"""Floor 11, icon: the first block of a pattern as the picture by which a device shows its booklet."""

from __future__ import annotations

from booklet.drawing.ink.path_text import number, path_data
from booklet.kit.outlines.plane import box_of
from booklet.plan import SizePlan

SIDE = 512.0
GROUND = "#ffffff"
NEAR, FAR = 0.94, 0.56  # of the side: the second fits the circle to which some devices cut an icon


def icon(size: SizePlan, share: float) -> bytes:
    """A square SVG with a block that takes a `share` of its side; of a pattern without blocks, its first cloth."""
    if not size.blocks:
        colour = next((fabric.colour for fabric in size.size.fabrics.values()), GROUND)
        return _drawn(f'<path fill="{colour}" d="M0 0H512V512H0Z"/>')
    tiling = size.blocks[0].tiling
    left, top, right, bottom = box_of(tiling.outline.points)
    scale = share * SIDE / max(right - left, bottom - top)
    x, y = (SIDE - scale * (right + left)) / 2, (SIDE - scale * (bottom + top)) / 2
    shapes = "".join(
        f'<path fill="{size.size.fabrics[piece.fabric].colour}" d="'
        + path_data([[(x + scale * a, y + scale * b) for a, b in piece.outline.points]], True)
        + '"/>'
        for piece in tiling.laid
    )
    line = number(SIDE / 128)
    ink = f'<g stroke="#1d2a38" stroke-width="{line}" stroke-linejoin="round">{shapes}</g>'
    return _drawn(f'<path fill="{GROUND}" d="M0 0H512V512H0Z"/>{ink}')


def _drawn(inner: str) -> bytes:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="512" height="512" viewBox="0 0 512 512">{inner}</svg>\n'
    ).encode()
