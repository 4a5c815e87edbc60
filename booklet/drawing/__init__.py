"""Floor 10: drawing. The plan becomes scenes, and scenes become SVG.

Each function takes records of the plan, the looks of the fabrics and a width in mm, and returns a
`Figure`, or several, or None where the pattern has nothing to show.
"""

from typing import TYPE_CHECKING

from booklet.later import later

if TYPE_CHECKING:
    from booklet.drawing.back import backing_figure
    from booklet.drawing.block import (
        block_figure,
        patch_key_figure,
        swatch_figure,
        thumbnail_figure,
    )
    from booklet.drawing.border import border_figure
    from booklet.drawing.chains import chain_figures
    from booklet.drawing.cutting import cloth_figure
    from booklet.drawing.fills import Looks, looks_of, looks_of_size
    from booklet.drawing.finishing import binding_figure, layers_figure
    from booklet.drawing.legend import legend_figure
    from booklet.drawing.practice import practice_figure
    from booklet.drawing.pressing import pressing_figure
    from booklet.drawing.quilt import (
        colouring_figure,
        cover_figure,
        layout_figure,
    )
    from booklet.drawing.scene import Figure, Scene
    from booklet.drawing.step import best_width, step_figure
    from booklet.drawing.svg import render
    from booklet.drawing.templates import template_figures
    from booklet.drawing.threads import thread_figures

__all__ = [
    "Figure",
    "Looks",
    "Scene",
    "backing_figure",
    "best_width",
    "binding_figure",
    "block_figure",
    "border_figure",
    "chain_figures",
    "cloth_figure",
    "colouring_figure",
    "cover_figure",
    "layers_figure",
    "layout_figure",
    "legend_figure",
    "looks_of",
    "looks_of_size",
    "patch_key_figure",
    "practice_figure",
    "pressing_figure",
    "render",
    "step_figure",
    "swatch_figure",
    "template_figures",
    "thread_figures",
    "thumbnail_figure",
]

__getattr__ = later(
    __name__,
    {
        "back": "backing_figure",
        "block": "block_figure patch_key_figure swatch_figure thumbnail_figure",
        "border": "border_figure",
        "chains": "chain_figures",
        "cutting": "cloth_figure",
        "fills": "Looks looks_of looks_of_size",
        "finishing": "binding_figure layers_figure",
        "legend": "legend_figure",
        "practice": "practice_figure",
        "pressing": "pressing_figure",
        "quilt": "colouring_figure cover_figure layout_figure",
        "scene": "Figure Scene",
        "step": "best_width step_figure",
        "svg": "render",
        "templates": "template_figures",
        "threads": "thread_figures",
    },
)
