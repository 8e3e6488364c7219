"""The trainer's sheet."""
