"""Floor 3: geometry. Patterns become tilings: placed pieces, patches with letters, seams."""

from booklet.geometry.layout import lay_out as lay_out
