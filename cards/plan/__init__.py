"""What a day of training needs: paper, food, pots, hours."""
