"""Floor 3: geometry. Patterns become tilings: placed pieces, patches with letters, seams."""
