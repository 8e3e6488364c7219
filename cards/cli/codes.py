"""Exit codes of all commands; 0 is clean or warnings only."""

ERRORS, WRONG_USE, BUG, STOPPED = 1, 2, 3, 130
"""130 is stopped by the keyboard."""
