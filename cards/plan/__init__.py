"""Plans: what a day of training needs, and what a day or a week of meals brings."""
