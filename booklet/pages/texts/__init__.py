"""Floor 11, a room: texts and words: Markdown, values in it, and the templates that hold it."""
