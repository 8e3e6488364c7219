"""Pages become PDF files. Only this room knows ReportLab."""
