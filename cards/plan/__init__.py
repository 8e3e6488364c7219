"""Plans: a day and a week of meals."""
