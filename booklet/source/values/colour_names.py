"""Floor 2: the sixteen basic colour names of CSS, and orange; all other colours are written as "#rrggbb"."""

NAMED = {
    "black": "#000000", "silver": "#c0c0c0", "gray": "#808080", "grey": "#808080",
    "white": "#ffffff", "maroon": "#800000", "red": "#ff0000", "purple": "#800080",
    "fuchsia": "#ff00ff", "green": "#008000", "lime": "#00ff00", "olive": "#808000",
    "yellow": "#ffff00", "navy": "#000080", "blue": "#0000ff", "teal": "#008080",
    "aqua": "#00ffff", "orange": "#ffa500",
}  # fmt: skip

# Cloths without a colour of their own take these in turn, light and dark by turns.
PLAIN = ("#d9d4c7", "#5b6573", "#b9c4cc", "#8a7f6d", "#eceae4", "#3f454d")
STAND_IN = "#999999"
