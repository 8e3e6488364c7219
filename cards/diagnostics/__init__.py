"""What is said to a person: place, kind, message, cure. Imported by every room, imports none."""
