"""Floor 10: drawing. The plan becomes scenes, and scenes become SVG."""
