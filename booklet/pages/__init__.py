"""Floor 11: pages. Plan, words and figures become one HTML page and a PDF."""
