"""Floor 13, the preview: the booklet in the author's own browser, following every save.

Nothing is served but the booklet, its faults and its source, on this machine alone, and nothing written but the source, when its
author asks for it on the page.
"""
