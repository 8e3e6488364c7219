"""The closed lists a recipe file may choose from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache

from cards.data import load


class Flame(StrEnum):
    """How high the fire."""

    LOW = "low"
    MEDIUM = "medium"
    HIGH = "high"


class Texture(StrEnum):
    """How the food reaches the child."""

    MASHED = "mashed"
    CHOPPED = "chopped"
    FAMILY = "family"


ENDS = (
    "soft",
    "firm",
    "golden",
    "thick",
    "smooth",
    "smells good",
    "double",
    "flakes",
    "boils",
    "sprouts show",
    "warm",
    "dry",
    "no pink",
)
"""Signs by which a cook sees that a step is done."""

PREPS = (
    "washed",
    "chopped",
    "chopped fine",
    "grated",
    "ground",
    "roasted",
    "soaked",
    "cooked",
    "mashed",
    "sliced",
    "peeled",
    "sprouted",
    "powdered",
    "boiled",
    "juice",
    "boned",
)
"""What has been done to an ingredient before the first step."""

MEANT: Mapping[str, str] = {
    "cook": "boil, simmer, steam, saute or pressure-cook",
    "heat": "boil, or warm for what was cooked before",
    "stir": "mix, or saute in a hot pan",
    "blend": "grind",
    "puree": "mash or grind",
    "cut": "chop",
    "remove": "take-out, or debone for bones",
    "feed": "serve",
    "bake": "griddle, roast or steam",
    "temper": "fry",
    "pour": "add, or drain",
    "wait": "rest or cool",
    "done": "soft, firm, flakes or no pink",
    "cooked": "soft, firm, flakes or no pink",
    "tender": "soft",
    "brown": "golden",
    "ready": "soft, firm, flakes or no pink",
}
"""Words that people write where the lists have others."""

SEASONS = ("summer", "rains", "autumn", "winter", "spring")
"""Seasons in which something else may be taken."""

WATERS = ("kept", "thrown")
"""What becomes of the water of a step."""

KITCHEN = (
    "pot",
    "pan",
    "griddle",
    "pressure cooker",
    "steamer",
    "grinding stone",
    "grater",
    "strainer",
    "cloth",
    "mixer",
    "oven",
    "microwave",
    "fridge",
    "scale",
    "thermometer",
    "freezer",
    "toaster",
    "measuring jug",
    "baking tray",
    "baking paper",
    "foil",
    "non-stick pan",
    "electric cooker",
    "timer",
)
"""What a kitchen may have."""

VILLAGE_KITCHEN = frozenset(KITCHEN[:9])
"""What a village kitchen is taken to have where the programme does not say (common practice)."""

SIZES_MM: Mapping[str, float] = {"fine": 3.0, "pea": 6.0, "small": 12.0, "finger": 60.0}
"""Named piece sizes, longest side in mm (common practice; pea 6 mm from memory)."""


@dataclass(frozen=True, slots=True)
class Action:
    """What a step does. ``minutes`` is the time taken when the step names none."""

    name: str
    minutes: int
    heat: bool = False
    wait: bool = False
    smooth: bool = False
    size: bool = False
    needs: str = ""
    """What a kitchen must have for it, of the list ``KITCHEN``."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Words for measures, with their canonical names, and the actions."""

    measures: Mapping[str, str]
    actions: Mapping[str, Action] = field(default_factory=dict)


@cache
def actions() -> Mapping[str, Action]:
    """All actions by name."""
    return {name: Action(name, **facts) for name, facts in load.mapping("actions.yaml").items()}


@cache
def heating() -> tuple[str, ...]:
    """Names of the actions that heat the food."""
    return tuple(name for name, action in actions().items() if action.heat)


def vocabulary(extra_measures: tuple[str, ...] = ()) -> Vocabulary:
    """The shipped vocabulary, with a programme's own measures taken by their names."""
    words: dict[str, str] = {}
    for name, facts in load.mapping("measures.yaml").items():
        words[name] = name
        words.update(dict.fromkeys(facts["words"], name))
    words.update({name: name for name in extra_measures})
    return Vocabulary(words, actions())
