"""Measures as units: an own pint registry in which mass and volume never meet by accident."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pint

from cards.data import load
from cards.source.vocabulary import vocabulary


class Measures:
    """Converts measures within their dimension; a programme's sizes replace the shipped ones.

    Volume to mass needs a food and its density: see ``mass``. Here it raises
    ``pint.DimensionalityError``, so a gram can never pass for a millilitre.
    """

    def __init__(self, sizes_ml: Mapping[str, float] | None = None) -> None:
        self._registry: Any = pint.UnitRegistry(None)
        self._registry.load_definitions(_definitions(sizes_ml or {}))
        self.words = tuple(vocabulary(tuple(sizes_ml or ())).measures)
        """Every word a recipe may use for a measure."""

    def millilitres(self, number: float, unit: str) -> float:
        """``number`` of a volume measure in ml. Raises pint.DimensionalityError."""
        return float(self._registry.Quantity(number, _symbol(unit)).to("millilitre").magnitude)

    def grams(self, number: float, unit: str) -> float:
        """``number`` of a mass unit in g. Raises pint.DimensionalityError."""
        return float(self._registry.Quantity(number, _symbol(unit)).to("gram").magnitude)

    def dimension(self, unit: str) -> str:
        """One of mass, volume and count."""
        found = self._registry.Quantity(1, _symbol(unit)).dimensionality
        name = str(next(iter(found))).strip("[]")
        return "count" if name.startswith("count_") else name


def _symbol(unit: str) -> str:
    return re.sub(r"\W", "_", unit)


def _definitions(sizes_ml: Mapping[str, float]) -> list[str]:
    lines = ["gram = [mass]", "millilitre = [volume]"]
    shipped = load.mapping("measures.yaml")
    for name, facts in shipped.items():
        if name in ("gram", "millilitre"):
            continue
        if name in sizes_ml:
            lines.append(f"{_symbol(name)} = {sizes_ml[name]} * millilitre")
        elif "g" in facts:
            lines.append(f"{_symbol(name)} = {facts['g']} * gram")
        elif "ml" in facts:
            lines.append(f"{_symbol(name)} = {facts['ml']} * millilitre")
        else:
            lines.append(f"{_symbol(name)} = [count_{_symbol(name)}]")
    lines += [
        f"{_symbol(name)} = {size} * millilitre"
        for name, size in sizes_ml.items()
        if name not in shipped
    ]
    return lines
