"""Floor 10: drawing. The plan becomes scenes, and scenes become SVG.

Each function takes records of the plan, the looks of the fabrics and a width in mm, and returns a
`Figure`, or several, or None where the pattern has nothing to show.
"""
