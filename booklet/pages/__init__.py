"""Floor 11: pages. The plan and its figures become HTML, and HTML becomes PDF."""
