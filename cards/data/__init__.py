"""The project's figures, each with its source, and how they are opened."""
