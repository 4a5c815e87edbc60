"""Floor 10: drawing. The plan becomes scenes, and scenes become SVG.

Each function takes records of the plan, the looks of the fabrics and a width in mm, and returns a
`Figure`, or several, or None where the pattern has nothing to show.
"""

from typing import TYPE_CHECKING

from booklet.later import later

if TYPE_CHECKING:
    from booklet.drawing.cloths.cutting_order import cloth_figure
    from booklet.drawing.ink.fills import Looks, looks_of
    from booklet.drawing.ink.svg import render
    from booklet.drawing.pressed.pressed_block import pressing_figure
    from booklet.drawing.quilts.back import backing_figure
    from booklet.drawing.quilts.block import (
        block_figure,
        patch_key_figure,
        swatch_figure,
        thumbnail_figure,
    )
    from booklet.drawing.quilts.border import border_figure
    from booklet.drawing.quilts.finishing import binding_figure, layers_figure
    from booklet.drawing.quilts.legend import legend_figure
    from booklet.drawing.quilts.mitre import mitre_figure
    from booklet.drawing.quilts.quilt import (
        colouring_figure,
        cover_figure,
        layout_figure,
    )
    from booklet.drawing.scene import Figure, Scene
    from booklet.drawing.steps.chains import chain_figures
    from booklet.drawing.steps.step import step_figure
    from booklet.drawing.steps.step_scale import best_width
    from booklet.drawing.templates.practice import practice_figure
    from booklet.drawing.templates.template_pages import template_figures

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
    "mitre_figure",
    "patch_key_figure",
    "practice_figure",
    "pressing_figure",
    "render",
    "step_figure",
    "swatch_figure",
    "template_figures",
    "thumbnail_figure",
]

__getattr__ = later(
    __name__,
    {
        "quilts.back": "backing_figure",
        "quilts.block": "block_figure patch_key_figure swatch_figure thumbnail_figure",
        "quilts.border": "border_figure",
        "steps.chains": "chain_figures",
        "cloths.cutting_order": "cloth_figure",
        "ink.fills": "Looks looks_of",
        "quilts.finishing": "binding_figure layers_figure",
        "quilts.legend": "legend_figure",
        "quilts.mitre": "mitre_figure",
        "templates.practice": "practice_figure",
        "pressed.pressed_block": "pressing_figure",
        "quilts.quilt": "colouring_figure cover_figure layout_figure",
        "scene": "Figure Scene",
        "steps.step": "step_figure",
        "steps.step_scale": "best_width",
        "ink.svg": "render",
        "templates.template_pages": "template_figures",
    },
)
