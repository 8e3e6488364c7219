"""What happens at the stove: does the method go with the list, and how long does it take."""
