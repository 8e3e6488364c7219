"""Icons drawn with primitives: one pen, one grid, one family."""
