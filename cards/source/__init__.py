"""From file text to a Recipe: positioned nodes, a strict model, exact amounts."""
