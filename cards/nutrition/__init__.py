"""Totals of the dish, and how much of it is a meal for a child of each age."""
