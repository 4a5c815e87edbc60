"""Floor 5, a room: where seams meet, inside a block and at the rims of neighbours."""
