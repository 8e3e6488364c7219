"""Pages of the papers of a training day."""
