"""Floor 7, a room: units sewn from larger pieces and cut afterwards."""
