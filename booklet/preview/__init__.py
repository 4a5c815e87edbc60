"""Floor 13, the preview: the booklet in the author's own browser, following every save.

Nothing is written, and nothing is served but the booklet, its faults and its source, on this machine alone.
"""
