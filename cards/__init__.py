"""Checked, nutrient-totalled recipe files become printed cards."""

__version__ = "0.1.0"
