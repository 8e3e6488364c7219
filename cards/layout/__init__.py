"""A Card becomes Pages: every item at its place in points. All thinking about space is here."""
