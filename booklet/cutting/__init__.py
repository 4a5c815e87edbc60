"""Floor 7: cutting. Patches and parts become cut outlines, rotary cuts, strips and yardage."""
