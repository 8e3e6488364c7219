"""A programme's own foods: a CSV that adds to the table or overrides it, checked line by line.

Columns: ``food`` (id), ``name``, ``also`` (with semicolons), ``group``,
``form``, ``flags``, ``allergens``, ``source``, ``note``; ``picture`` (the icon
that shows one of it); ``edible_share``, ``density_g_ml``, ``piece_g``; and
figures per 100 g edible under an INFOODS tagname with its unit, such as
``FE_mg``. An empty cell is no figure.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from cards.diagnostics.diagnostic import (
    MOST,
    Diagnostic,
    Place,
    Result,
    error,
    first_of,
    has_errors,
    warning,
)
from cards.diagnostics.hidden import is_hidden
from cards.diagnostics.nearest import did_you_mean
from cards.foods.components import KJ_PER_KCAL, components
from cards.foods.table import (
    FORMS,
    GROUPS,
    NAME_ONLY,
    NAME_ONLY_NOTE,
    Figure,
    Food,
    FoodMeasure,
    FoodTable,
    pictures,
)

TEXTS = (
    *("food", "name", "also", "group", "form", "flags", "allergens", "source", "note"),
    "picture",
)
MEASURES = {
    "edible_share": ("edible_share", "share"),
    "density_g_ml": ("density", "g/ml"),
    "piece_g": ("piece", "g"),
}
MACROS = ("ENERC", "WATER", "PROCNT", "FAT", "CHOAVL", "FIBTG")
"""One source for all of these, so that energy can be checked."""

MOST_ROWS = 5000
"""More foods than any kitchen uses: over ten times those of the shipped table."""

LONGEST_CELL = 160
"""Characters of a name, a source or a note."""

LIMITS = {"g": 100.0, "mg": 100_000.0, "ug": 100_000_000.0, "kcal": 905.0}
"""The most of a component 100 g can hold, by its unit; 100 g of fat give 902 kcal (Atwater)."""


def own_table(text: str, file: str, shipped: FoodTable) -> Result[FoodTable]:
    """The shipped table with a programme's foods added and overridden."""
    # any of the three ways of ending a line will do
    reader = csv.DictReader(io.StringIO(re.sub(r"\r\n?", "\n", text.lstrip("\ufeff"))), strict=True)
    try:
        faults = list(first_of(_header_faults(list(reader.fieldnames or []), file)))
        if has_errors(faults):
            return Result(None, tuple(faults))
        return _with_rows(reader, file, shipped, faults)
    except csv.Error as trouble:
        broken = error(
            Place(file, reader.line_num + 1, 1),  # lines of whole rows are counted
            "table-row",
            f"this line cannot be taken apart into cells ({trouble})",
            "look for a quotation mark that is opened and never closed",
        )
        return Result(None, (broken,))


def _with_rows(
    reader: csv.DictReader[str], file: str, shipped: FoodTable, faults: list[Diagnostic]
) -> Result[FoodTable]:
    """The shipped table with the rows that the reader gives."""
    foods = dict(shipped.foods)
    seen: dict[str, int] = {}
    for row in reader:
        if len(faults) > MOST:
            return Result(None, first_of(faults))
        at = Place(file, reader.line_num, 1)
        if len(seen) >= MOST_ROWS:
            faults.append(
                error(
                    at,
                    "table-row",
                    f"this table has more than {MOST_ROWS} foods",
                    "keep the foods that your recipes use",
                )
            )
            break
        if None in row:
            faults.append(
                error(
                    at,
                    "table-row",
                    "this line has more cells than the first line has columns",
                    "put quotes around a text with a comma, and a point into a number",
                )
            )
            continue
        key = " ".join((row.get("food") or "").split())
        if key in seen:
            faults.append(
                error(
                    at,
                    "table-row",
                    f'"{key}" stands here a second time; first on line {seen[key]}',
                    "keep one of the two",
                )
            )
            continue
        seen[key] = reader.line_num
        food, found = _food(row, at, foods.get(key))
        faults += found
        if food is not None:
            foods[food.id] = food
    return Result(None if has_errors(faults) else FoodTable(foods.values()), first_of(faults))


def _header_faults(header: list[str], file: str) -> Iterator[Diagnostic]:
    at = Place(file, 1, 1)
    if len(header) == 1 and re.search("[;\t]", header[0]):
        yield error(
            at,
            "table-column",
            "the columns are parted by something other than commas",
            "save the table as CSV with commas between the cells",
        )
        return
    if "food" not in header:
        yield error(
            at,
            "table-column",
            'there is no column "food"',
            "the first line names the columns: food,name,group,...,FE_mg",
        )
    known = {f"{c.tag}_{c.unit}" for c in components().values()}
    for name, times in Counter(header).items():
        if times > 1:
            yield error(
                at, "table-column", f'the column "{name}" stands here twice', "keep one of the two"
            )
        if name in TEXTS or name in MEASURES or name in known:
            continue
        tag, _, unit = name.rpartition("_")
        component = components().get(tag)
        if component is not None:
            yield error(
                at,
                "table-column",
                f'"{name}" gives {component.name} in "{unit}"',
                f"write {tag}_{component.unit} and give the figures in {component.unit}",
            )
        else:
            yield error(
                at,
                "table-column",
                f'"{name}" is not a column here',
                did_you_mean(
                    name, (*TEXTS, *MEASURES, *known), "figures are named like FE_mg, ENERC_kcal"
                ),
            )


def _food(
    row: Mapping[str, str | None], at: Place, base: Food | None
) -> tuple[Food | None, list[Diagnostic]]:
    faults: list[Diagnostic] = []

    def text(name: str) -> str:
        return " ".join((row.get(name) or "").split())

    key = text("food")
    if not key:
        return None, [error(at, "table-row", "this line names no food", "fill the column food")]
    if base is None and not text("name"):
        faults.append(
            error(at, "table-row", f'"{key}" is new and has no name', "fill the column name")
        )
    for column in TEXTS:
        cell = text(column)
        if re.search("\n", (row.get(column) or "").strip()):
            faults.append(
                error(
                    at,
                    "table-row",
                    f"{column}: this cell goes over several lines",
                    "look for a quotation mark that is opened and never closed",
                )
            )
        elif len(cell) > LONGEST_CELL or "*" in cell or any(map(is_hidden, cell)):
            faults.append(
                error(
                    at,
                    "table-row",
                    f"{column}: this cannot be printed",
                    f"write at most {LONGEST_CELL} letters, without stars or hidden characters",
                )
            )
    if text("name") and not any(map(str.isalnum, text("name"))):
        faults.append(error(at, "table-row", "there are no letters in this name", "write a name"))
    closed = (("group", (*GROUPS, "none")), ("form", FORMS), ("picture", pictures()))
    for column, choices in closed:
        if text(column) and text(column) not in choices:
            faults.append(
                error(
                    at,
                    "table-row",
                    f'"{text(column)}" is not a {column}',
                    did_you_mean(text(column), choices, f"choose from: {', '.join(choices)}"),
                )
            )
    source = text("source") or at.file
    figures = dict(base.figures) if base else {}
    given: list[str] = []
    for tag, component in components().items():
        value, trouble = _number(
            row.get(f"{tag}_{component.unit}"), at, component.name, LIMITS[component.unit]
        )
        faults += trouble
        if value is not None:
            given.append(tag)
            figures[tag] = Figure(value, source, "", "programme", text("note"))
    measures = dict(base.measures) if base else {}
    for column, (name, unit) in MEASURES.items():
        value, trouble = _number(row.get(column), at, column, 1.0 if unit == "share" else 10_000)
        faults += trouble
        if value:
            basis = "bought" if name == "piece" and text("edible_share") else "edible"
            measures[name] = FoodMeasure(value, unit, basis, source, "", "programme", "")
    if has_errors(faults):
        return None, faults
    macros = [tag for tag in MACROS if tag in given]
    if base is not None and base.figures and macros and len(macros) < len(MACROS):
        faults.append(
            warning(
                at,
                "table-mixed",
                f'"{key}": {", ".join(macros)} from {source}, the rest from elsewhere',
                "give energy, water, protein, fat, carbohydrate and fibre together",
            )
        )
    faults += _sum_faults(figures, at, key)
    start = base or Food(
        key, "", (), "none", "whole", frozenset(), (), "direct", "", "raw", "none", {}, {}
    )
    if given and start.has(NAME_ONLY):
        start = _now_with_figures(start)
    food = replace(
        start,
        name=text("name") or start.name,
        also=tuple(a.strip() for a in text("also").split(";") if a.strip()) or start.also,
        group=text("group") or start.group,
        form=text("form") or start.form,
        flags=frozenset(text("flags").split()) or start.flags,
        allergens=tuple(text("allergens").split()) or start.allergens,
        note=text("note") or start.note,
        figures=figures,
        measures=measures,
        picture=text("picture") or start.picture,
    )
    return food, faults


def _now_with_figures(food: Food) -> Food:
    """A food known by name only, without the marks of one; its warnings stay."""
    return replace(
        food,
        flags=food.flags - {NAME_ONLY},
        match="direct",
        note=food.note.removeprefix(NAME_ONLY_NOTE).lstrip("; "),
    )


def _number(
    cell: str | None, at: Place, what: str, most: float
) -> tuple[float | None, list[Diagnostic]]:
    if cell is None or not cell.strip():
        return None, []
    try:
        value = float(cell.replace("_", " "))
    except ValueError:
        return None, [
            error(
                at,
                "table-value",
                f'{what}: "{cell.strip()}" is not a number',
                "write digits with a point, or leave the cell empty",
            )
        ]
    if not 0 <= value <= most:
        return None, [
            error(
                at,
                "table-value",
                f"{what}: {value:g} cannot be",
                f"100 g hold between 0 and {most:g}",
            )
        ]
    return value, []


def energy_bounds(
    protein: float, fat: float, carbohydrate: float, fibre: float
) -> tuple[float, float]:
    """Least and most kcal that go with grams of these, whatever factors a table uses.

    General Atwater factors 4, 9, 4 (FAO Food and Nutrition Paper 77, memory);
    the least leaves out fibre and 15 %, the most counts it and adds 5 %, and 5
    kcal each way. Fits all rows we carry; a kilojoule taken for a
    kilocalorie does not fit.
    """
    least = 0.85 * (4 * protein + 9 * fat + 4 * carbohydrate) - 5
    return least, 1.05 * (4 * protein + 9 * fat + 4 * (carbohydrate + fibre)) + 5


def _sum_faults(figures: Mapping[str, Figure], at: Place, key: str) -> Iterator[Diagnostic]:
    value = {tag: f.value for tag, f in figures.items()}
    if {"PROCNT", "FAT", "CHOAVL", "ENERC"} <= value.keys():
        least, most = energy_bounds(
            value["PROCNT"], value["FAT"], value["CHOAVL"], value.get("FIBTG", 0.0)
        )
        if not least <= value["ENERC"] <= most:
            kj = "; is it in kJ?" if least <= value["ENERC"] / KJ_PER_KCAL <= most else ""
            yield error(
                at,
                "table-energy",
                f'"{key}": {value["ENERC"]:g} kcal do not go with its protein, fat and '
                f"carbohydrate ({max(0, least):.0f} to {most:.0f} kcal){kj}",
                "check the figures and their units",
            )
    if set(MACROS) - {"ENERC"} <= value.keys():
        total = sum(value[t] for t in MACROS if t != "ENERC") + 2.54 * value.get("NA", 0) / 1000
        if not 90 <= total <= 104:
            yield warning(
                at,
                "table-sum",
                f'"{key}": water, protein, fat, carbohydrate and fibre make {total:.0f} g of 100 g',
                "check the figures; ash is all that may be missing",
            )
