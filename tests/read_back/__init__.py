"""Read back: the numbers that stand in the pages and in the PDFs, read from their text, are the facts."""
