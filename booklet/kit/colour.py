"""Floor 0: sums with colours, "#rrggbb" or "#rgb": their parts, mixtures, how light they are, how they stand out."""

from __future__ import annotations

Rgb = tuple[float, float, float]


def rgb(colour: str) -> Rgb:
    """Red, green and blue from 0 to 1 of '#rrggbb' or '#rgb'."""
    digits = colour.lstrip("#")
    if len(digits) == 3:
        digits = "".join(d * 2 for d in digits)
    red, green, blue = (int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4))
    return red, green, blue


def text_of(value: Rgb) -> str:
    """'#rrggbb' of red, green and blue from 0 to 1."""
    return "#" + "".join(f"{round(255 * min(max(part, 0), 1)):02x}" for part in value)


def mix(colour: str, other: str, share: float) -> str:
    """`colour` with `share` (0 to 1) of `other` in it."""
    a, b = rgb(colour), rgb(other)
    return text_of(
        (
            a[0] + (b[0] - a[0]) * share,
            a[1] + (b[1] - a[1]) * share,
            a[2] + (b[2] - a[2]) * share,
        )
    )


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.2, sRGB)."""
    parts = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in rgb(colour)]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def lightness(colour: str) -> float:
    """How light a colour looks, 0 (black) to 100 (white): CIE L*."""
    y = luminance(colour)
    return 116 * y ** (1 / 3) - 16 if y > (6 / 29) ** 3 else y * (29 / 3) ** 3


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    a, b = sorted((luminance(one), luminance(other)))
    return (b + 0.05) / (a + 0.05)
