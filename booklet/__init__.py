"""A patchwork pattern written as text becomes a checked, illustrated instruction booklet."""
