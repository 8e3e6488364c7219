"""Pages about the icons: their list, their test, the first lesson."""
