"""Floor 0, walls: worker processes that the system keeps within limits. What strangers made is read only there."""
