"""Page templates, styles and words, carried in the wheel as data."""
