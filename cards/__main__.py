"""``python -m cards``."""

from cards.cli import main

main()
