"""What a card says: blocks of words and icon names, without any position."""
