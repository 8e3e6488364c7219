"""Charts for a wall: a dish, feeding by age, a day of meals."""
