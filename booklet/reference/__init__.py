"""Floor 13, reference: what `booklet help` tells of the format, from the tables that the reader uses."""
