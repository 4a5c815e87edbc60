"""Floor 10, a room: letters, numbers and words in pictures, and where they find room."""
