"""Foods and measures: what a name means, what it weighs, what it holds."""
