"""The closed list of questions a rule may ask; importing it brings them all."""

from cards.safety import ask_foods, ask_portions, ask_steps, ask_texture
from cards.safety.predicate import PREDICATES

__all__ = ["PREDICATES", "ask_foods", "ask_portions", "ask_steps", "ask_texture"]
