"""What cooking leaves: retention factors by food group and way of cooking."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from cards.data import load
from cards.foods.table import Food


class Cooking(StrEnum):
    """Ways of cooking that the published factors tell apart."""

    USED = "used"
    DRAINED = "drained"
    STEAMED = "steamed"
    FRIED = "fried"
    ROASTED = "roasted"


_OF_ACTION = {
    "boil": Cooking.USED,
    "simmer": Cooking.USED,
    "pressure-cook": Cooking.USED,
    "steam": Cooking.STEAMED,
    "saute": Cooking.FRIED,
    "fry": Cooking.FRIED,
    "griddle": Cooking.FRIED,
    "roast": Cooking.ROASTED,
}


@dataclass(frozen=True, slots=True)
class RetentionRow:
    """One row of the published table: percent left of each component, by tag."""

    code: str
    cooking: str
    percent: Mapping[str, float]

    def share(self, tag: str) -> float:
        """Share left of a component; all of it where the table has no factor."""
        return self.percent.get(tag, 100.0) / 100


@cache
def _rows() -> Mapping[str, RetentionRow]:
    return {
        row["code"]: RetentionRow(
            row["code"],
            row["cooking"],
            {t: float(v) for t, v in row.items() if t not in ("code", "cooking") and v},
        )
        for row in load.rows("retention.csv")
    }


def ways(actions: Iterable[str], *, drained: bool) -> tuple[Cooking, ...]:
    """The ways of cooking that actions stand for, each once, in order."""
    found = [_OF_ACTION[name] for name in actions if name in _OF_ACTION]
    if drained:
        found = [Cooking.DRAINED if way is Cooking.USED else way for way in found]
    return tuple(dict.fromkeys(found))


def retention_row(food: Food, cooking: Iterable[Cooking]) -> RetentionRow | None:
    """The row that leaves least of vitamin C among the ways a food is cooked; None for none.

    One factor a food, as the mixed-recipe method asks; where a food is cooked
    in two ways the harder one counts. Never for figures of cooked foods.
    """
    if food.state == "cooked":
        return None
    groups = load.mapping("retention_groups.yaml")
    group = groups.get(f"{food.retention}-{food.form}") or groups.get(food.retention) or {}
    rows = [_rows()[group[way]] for way in cooking if way in group]
    return min(rows, key=lambda r: (r.share("VITC"), r.code)) if rows else None
