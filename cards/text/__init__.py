"""Type: fonts, script runs, shaping and line breaking."""
