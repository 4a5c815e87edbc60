"""Floor 6: the quilt. Blocks are set, sashed, bordered, backed and bound."""
