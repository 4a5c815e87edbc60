"""Floor 11, exports: the plan as files for other programs, and printed pages as a press wants them."""
