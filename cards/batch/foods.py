"""The food table in the terminal: find foods, show one with all its figures and sources."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console
from rich.table import Table

from cards.foods.components import KJ_PER_KCAL, components
from cards.foods.table import Food, FoodTable, fold, ranges_of, sources
from cards.words.numbers import two


def found(table: FoodTable, word: str) -> tuple[Food, ...]:
    """Foods that have ``word`` in one of their names; the best names first."""
    wanted = fold(word)
    hits = [
        food
        for food in table.foods.values()
        if any(wanted in fold(name) for name in (food.id, food.name, *food.also))
    ]
    exact = [food for food in hits if food.called(word)]
    return (*exact, *(food for food in hits if food not in exact))


def print_list(foods: Iterable[Food], console: Console) -> None:
    """A line a food: id, name, other names, group; foods without figures say so."""
    table = Table(box=None, pad_edge=False)
    for heading in ("food", "name", "also", "group"):
        table.add_column(heading, overflow="fold")
    for food in foods:
        group = food.group if food.figures else f"{food.group}; no figures"
        table.add_row(food.id, food.name, ", ".join(food.also), group)
    console.print(table)


def print_food(food: Food, console: Console) -> None:
    """Composition per 100 g edible, measures, and where each figure is from."""
    console.print(f"{food.name} ({food.id})", style="bold")
    if food.also:
        console.print(f"also: {', '.join(food.also)}")
    console.print(f"group {food.group}; form {food.form}; state {food.state}; match {food.match}")
    if food.flags:
        console.print(f"flags: {', '.join(sorted(food.flags))}")
    if food.allergens:
        console.print(f"allergens: {', '.join(food.allergens)}")
    if food.note:
        console.print(f"note: {food.note}")
    if food.figures:
        _composition(food, console)
    else:
        console.print('no figures: sums with this food in it say "at least"')
    _measures(food, console)
    used = {f.source for f in food.figures.values()} | {m.source for m in food.measures.values()}
    console.print("\nsources")
    for key in sorted(used):
        source = sources().get(key)
        if source:
            console.print(f"  {key}: {source['authors']} ({source['year']}) {source['title']}")
        else:
            console.print(f"  {key}: figures of this programme")


def _composition(food: Food, console: Console) -> None:
    table = Table(box=None, pad_edge=False, title="per 100 g edible", title_justify="left")
    for heading in ("component", "amount", "unit", "source", "known", "range", "note"):
        table.add_column(
            heading, justify="right" if heading == "amount" else "left", overflow="fold"
        )
    spread = ranges_of(food.id)
    for tag, component in components().items():
        figure = food.figures.get(tag)
        if figure is None:
            continue
        wide = spread.get(tag)
        table.add_row(
            component.name,
            f"{figure.value:g}",
            component.unit,
            f"{figure.source} {figure.code}".strip(),
            figure.known,
            f"{two(wide.low)} to {two(wide.high)}" if wide else "",
            figure.note,
        )
        if tag == "ENERC":
            table.add_row("", f"{figure.value * KJ_PER_KCAL:.0f}", "kJ", "kcal x 4.184", "computed")
    console.print(table)
    energy = food.figures.get("ENERC")
    system = sources().get(energy.source, {}).get("energy") if energy else None
    if system:
        console.print(f"energy reckoned by: {system}")


def _measures(food: Food, console: Console) -> None:
    table = Table(box=None, pad_edge=False, title="\nmeasures", title_justify="left")
    for heading in ("measure", "weight", "unit", "of", "source", "known", "note"):
        table.add_column(
            heading, justify="right" if heading == "weight" else "left", overflow="fold"
        )
    for name, measure in food.measures.items():
        table.add_row(
            name,
            f"{measure.value:g}",
            measure.unit,
            measure.basis,
            f"{measure.source} {measure.code}".strip(),
            measure.known,
            measure.note,
        )
    console.print(table)
