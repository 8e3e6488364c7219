"""Pages become PDF files. Only this room knows how one is written."""
