"""Charts of the trainer's sheet: small multiples of bars, each question written above its chart."""

from __future__ import annotations

from cards.card.sheet import DensityRow, Origin, Sheet
from cards.layout.pages import BarItem, Placed, RuleItem
from cards.layout.trainer.sheet_type import Type
from cards.nutrition.adequacy import Density, Standing
from cards.words.numbers import two

SIZE = 8.5
ROW = 13.0
"""Height of a chart's row in points."""

FULL = 2.0
"""Bars end at twice what is desired; longer ones are cut there and say so by their number."""


def densities(sheet: Sheet, kind: Type, width: float) -> tuple[list[Placed], float]:
    """A row a component, a column an age: bar, and the line of what is desired."""
    label = 92.0
    cell = (width - label) / max(1, len(sheet.bands))
    bar = cell * 0.42
    items: list[Placed] = []
    for index, band in enumerate(sheet.bands):
        x = label + index * cell
        items.append(kind.line(f"{band.replace('-', '–')} months", x, 10, SIZE, "bold"))
    top = 16.0
    for number, row in enumerate(sheet.densities):
        y = top + number * ROW
        items.append(kind.line(f"{row.name}, {row.unit}", 0, y + 9, SIZE))
        for index, density in enumerate(row.cells):
            items += _density(density, row, kind, label + index * cell, y, bar)
    bottom = top + len(sheet.densities) * ROW
    for index in range(len(sheet.bands)):
        x = label + index * cell + bar / FULL
        items.append(RuleItem(x, top, x, bottom, 1.0))
        items.append(kind.line("desired", x + 2, bottom + 8, 7.5))
    return items, bottom + 12


def _density(
    density: Density, row: DensityRow, kind: Type, x: float, y: float, bar: float
) -> list[Placed]:
    at = x + bar + 4
    if density.per_100_kcal is None or density.standing is Standing.UNKNOWN:
        return [kind.line("not known", at, y + 9, SIZE)]
    share = density.share or 0.0
    length = min(share, FULL) / FULL * bar
    sign = ">=" if density.least else ""
    told = f"{sign}{two(density.per_100_kcal)} of {two(density.desired)}"
    shade = "dark" if density.standing is Standing.ENOUGH else "accent"
    items: list[Placed] = [kind.line(told, at, y + 9, SIZE)]
    if length > 0.3:
        items.insert(0, BarItem(x, y + 3, length, ROW - 6, shade))
    return items


def thickness(sheet: Sheet, kind: Type, width: float) -> tuple[list[Placed], float]:
    """The dish on a scale of kcal per g, over the least that two to five meals a day need."""
    most = max(
        1.6, 0.2 + max((sheet.energy_density or 0.0, *(t.density for t in sheet.thresholds)))
    )
    label = 92.0
    span = width - label - 10

    def at(density: float) -> float:
        return label + density / most * span

    items: list[Placed] = []
    for number, band in enumerate(sheet.bands):
        y = 16 + number * 22.0
        items.append(kind.line(f"{band.replace('-', '–')} months", 0, y + 9, SIZE, "bold"))
        items.append(RuleItem(label, y + 6, label + span, y + 6, 0.5))
        for threshold in (t for t in sheet.thresholds if t.band == band):
            x = at(threshold.density)
            items.append(RuleItem(x, y + 2, x, y + 10, 1.0))
            items.append(kind.line(f"{threshold.meals}", x - 2, y + 18, 7.5))
    bottom = 16 + len(sheet.bands) * 22.0
    if sheet.energy_density is not None:
        x = at(sheet.energy_density)
        items.append(BarItem(x - 1.2, 12, 2.4, bottom - 12, "accent"))
        told = f"this dish {sheet.energy_density:.2f} kcal per g"
        room = kind.width(told, SIZE, "bold")
        items.append(kind.line(told, min(x + 4, width - room), 9, SIZE, "bold"))
    items.append(
        kind.line(
            "ticks: least kcal per g at so many meals a day, average breast milk",
            label,
            bottom + 8,
            7.5,
        )
    )
    return items, bottom + 12


def origins(sheet: Sheet, kind: Type, width: float) -> tuple[list[Placed], float]:
    """Side by side: for each component the foods that bring it, largest first."""
    count = len(sheet.origins)
    cell = width / max(1, count)
    items: list[Placed] = []
    height = 0.0
    for index, origin in enumerate(sheet.origins):
        found, used = _origin(origin, kind, cell - 12)
        items += [item.moved(index * cell, 0) for item in found]
        height = max(height, used)
    return items, height


def _origin(origin: Origin, kind: Type, room: float) -> tuple[list[Placed], float]:
    items: list[Placed] = [kind.line(origin.name, 0, 10, SIZE, "bold")]
    y = 15.0
    if not origin.shares:
        items.append(kind.line("not known" if origin.known_share < 0.8 else "none", 0, y + 9, SIZE))
        return items, y + 14
    for name, share in origin.shares:
        told = f"{share:.0%}"
        figures = kind.width(told, SIZE)
        items.append(kind.line(_short(name, kind, room - figures - 4), 0, y + 9, SIZE))
        items.append(kind.line(told, room, y + 9, SIZE, right=True))
        items.append(BarItem(0, y + 12, max(0.6, share * room), 3.5, "dark"))
        y += 18
    return items, y


def _short(name: str, kind: Type, room: float) -> str:
    while kind.width(name, SIZE) > room and len(name) > 4:
        name = name[:-2].rstrip() + "."
    return name
