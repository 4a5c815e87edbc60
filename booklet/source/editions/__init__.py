"""Floor 2, a room: what each edition of the booklet prints, and how it looks."""
