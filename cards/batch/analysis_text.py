"""The analysis as text, as a table for other programs, and the reckoning behind one figure."""

from __future__ import annotations

import csv
import io
import json
from fractions import Fraction
from typing import Any

from cards.foods.components import KJ_PER_KCAL, components
from cards.foods.table import sources
from cards.nutrition import adequacy
from cards.nutrition.analysis import Analysis
from cards.source.amounts import Amount
from cards.source.recipe import Recipe
from cards.words.numbers import number_range, two


def analysis_text(analysis: Analysis) -> str:
    """Ingredients with grams, sums whole, per 100 g, per 100 kcal and per portion, sources."""
    lines = [
        f"cooked: {analysis.cooked_g:.0f} g, {analysis.cooked_ml:.0f} ml ({analysis.cooked_how})",
        "",
        "ingredients, edible grams, and how found",
    ]
    for line in analysis.lines:
        mark = " (optional, not counted)" if line.ingredient.optional else ""
        lines.append(f"  {line.food.name:24} {line.edible_g:8.1f} g  {line.how}{mark}")
    bands = [p.band for p in analysis.portions]
    lines += ["", _row("", "unit", "dish", "100 g", "100 kcal", *bands) + "  known"]
    for tag, component in components().items():
        total = analysis.totals[tag]
        if total.known_share == 0 and total.value == 0:
            lines.append(
                _row(component.name, component.unit, *["?"] * (3 + len(bands))) + "  no figures"
            )
            continue
        least = "" if total.complete else ">="
        per_kcal = analysis.per_100_kcal(tag)
        lines.append(
            _row(
                component.name,
                component.unit,
                least + two(total.value),
                two(analysis.per_100_g(tag)),
                "?" if per_kcal is None else two(per_kcal),
                *(two(p.per_portion[tag]) for p in analysis.portions),
            )
            + (f"  {total.known_share:.0%}" if total.missing else "")
            + (f" (no figure: {', '.join(total.missing)})" if total.missing else "")
        )
    lines += ["", "portions (the larger amount; months, amount, meals a day, texture)"]
    for p in analysis.portions:
        start = f", from {p.start[0]}-{p.start[1]} tablespoons" if p.start else ""
        lines.append(
            f"  {p.band:6} {Amount(p.low, p.high, p.unit)} ({p.grams_high:.0f} g){start}; "
            f"{number_range(*(Fraction(n) for n in p.meals))} meals; {p.texture}"
        )
    lines += ["", "taken for granted", *(f"  {a}" for a in analysis.assumptions)]
    lines += ["", "sources of the figures"]
    for line in analysis.lines:
        codes: dict[str, list[str]] = {}
        for tag, figure in line.food.figures.items():
            codes.setdefault(f"{figure.source} {figure.code}".strip(), []).append(tag)
        told = "; ".join(f"{code}: {' '.join(tags)}" for code, tags in codes.items())
        lines.append(f"  {line.food.name}: {told or 'none'}")
    return "\n".join(lines) + "\n"


def _row(name: str, unit: str, *cells: str) -> str:
    return f"{name:24} {unit:5}" + "".join(f"{cell:>10}" for cell in cells)


def why_text(analysis: Analysis, tag: str) -> str:
    """How one component's sum comes about: grams, figure, factor, product, source, a line each.

    Raises KeyError for a tag that is no component.
    """
    component = components()[tag]
    total = analysis.totals[tag]
    lines = [
        f"{component.name} ({tag}), {component.unit}",
        f"{'ingredient':22}{'grams':>9}{'per 100 g':>11}{'left':>7}{'gives':>10}  source",
    ]
    if tag in ("VITA_RE", "WATER"):
        how = {
            "VITA_RE": "retinol + beta-carotene / 6, of each ingredient (see RETOL and CARTB)",
            "WATER": "what the cooked weight leaves beside all that is not water",
        }[tag]
        lines.append(f"  {how}")
    for line in analysis.lines if tag != "VITA_RE" else ():
        if line.ingredient.optional:
            continue
        figure = line.food.figures.get(tag)
        share = line.retention.share(tag) if line.retention else 1.0
        if figure is None and line.food.has("water"):
            lines.append(
                f"{line.food.name:22}{line.edible_g:9.1f}{'':>11}{'':>7}{'':>10}  not counted"
            )
            continue
        if figure is None:
            lines.append(
                f"{line.food.name:22}{line.edible_g:9.1f}{'?':>11}{'':>7}{'?':>10}  no figure"
            )
            continue
        factor = f"{share:.0%}"
        row = f", retention row {line.retention.code}" if line.retention and share < 1 else ""
        note = f"; {figure.note}" if figure.note else ""
        lines.append(
            f"{line.food.name:22}{line.edible_g:9.1f}{figure.value:11g}{factor:>7}"
            f"{line.holds(tag):10.4g}  {figure.source} {figure.code} ({figure.known}){row}{note}"
        )
    if tag == "ENERC":
        used = {li.food.figures[tag].source for li in analysis.lines if tag in li.food.figures}
        lines += [
            f"  {key} reckons energy by: {sources()[key]['energy']}"
            for key in sorted(used)
            if "energy" in sources().get(key, {})
        ]
    sign = "" if total.complete else "at least "
    lines += [
        f"sum: {sign}{two(total.value)} {component.unit} in the dish; "
        f"known for {total.known_share:.0%} of its mass",
        f"per 100 g as eaten: {two(total.value)} x 100 / {analysis.cooked_g:.0f} g "
        f"= {two(analysis.per_100_g(tag))} {component.unit}",
    ]
    per_kcal = analysis.per_100_kcal(tag)
    if per_kcal is not None:
        energy = analysis.totals["ENERC"].value
        lines.append(
            f"per 100 kcal: {two(total.value)} x 100 / {energy:.0f} kcal "
            f"= {two(per_kcal)} {component.unit}"
        )
    return "\n".join(lines) + "\n"


def analysis_rows(recipe: Recipe, analysis: Analysis) -> list[dict[str, Any]]:
    """One row a component, units in the names of the columns; empty where nothing is known."""
    rows: list[dict[str, Any]] = []
    for tag, component in components().items():
        total = analysis.totals[tag]
        known = total.known_share > 0 or total.value > 0
        row: dict[str, Any] = {
            "recipe": recipe.path,
            "digest": recipe.digest,
            "component": f"{tag}_{component.unit}",
            "dish": round(total.value, 6) if known else None,
            "per_100_g": round(analysis.per_100_g(tag), 6) if known else None,
            "per_100_kcal": None,
            "known_share": round(total.known_share, 4),
            "missing": "; ".join(total.missing),
            "sources": _used(analysis, tag),
        }
        per_kcal = analysis.per_100_kcal(tag)
        if known and per_kcal is not None:
            row["per_100_kcal"] = round(per_kcal, 6)
        for portion in analysis.portions:
            column = f"portion_{portion.band}_months_{portion.grams_high:.0f}_g"
            row[column] = round(portion.per_portion[tag], 6) if known else None
        rows.append(row)
    energy = next(r for r in rows if r["component"] == "ENERC_kcal")
    as_kj = {
        key: round(value * KJ_PER_KCAL, 4)
        if isinstance(value, float) and key != "known_share"
        else value
        for key, value in energy.items()
    }
    rows.insert(rows.index(energy) + 1, {**as_kj, "component": "ENERC_kJ"})
    return rows


def _used(analysis: Analysis, tag: str) -> str:
    """Source and row of each ingredient's figure for a component."""
    told = {
        line.food.id: f"{line.food.figures[tag].source} {line.food.figures[tag].code}".strip()
        for line in analysis.lines
        if tag in line.food.figures
    }
    return "; ".join(f"{food}: {source}" for food, source in told.items())


def analysis_csv(recipe: Recipe, analysis: Analysis) -> str:
    """The rows as CSV."""
    rows = analysis_rows(recipe, analysis)
    stream = io.StringIO()
    writer = csv.DictWriter(stream, list(rows[0]), lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return stream.getvalue()


def analysis_json(recipe: Recipe, analysis: Analysis) -> str:
    """Everything the sums say, as one JSON object; units in the names."""
    ratios = adequacy.phytate_ratios(analysis)
    return (
        json.dumps(
            {
                "recipe": recipe.path,
                "digest": recipe.digest,
                "cooked_g": round(analysis.cooked_g, 3),
                "cooked_ml": round(analysis.cooked_ml, 3),
                "cooked_how": analysis.cooked_how,
                "energy_density_kcal_per_g": analysis.energy_density,
                "ingredients": [
                    {
                        "food": line.food.id,
                        "edible_g": round(line.edible_g, 4),
                        "how": line.how,
                        "retention_row": line.retention.code if line.retention else None,
                        "optional": line.ingredient.optional,
                        "sources": sorted(
                            {f"{f.source} {f.code}".strip() for f in line.food.figures.values()}
                        ),
                    }
                    for line in analysis.lines
                ],
                "components": analysis_rows(recipe, analysis),
                "portions": [
                    {
                        "months": list(p.months),
                        "low": str(p.low),
                        "high": str(p.high),
                        "unit": p.unit,
                        "grams_high": round(p.grams_high, 3),
                        "meals_a_day": list(p.meals),
                        "texture": str(p.texture),
                    }
                    for p in analysis.portions
                ],
                "phytate_to_iron_molar": ratios["FE"],
                "phytate_to_zinc_molar": ratios["ZN"],
                "assumptions": list(analysis.assumptions),
            },
            ensure_ascii=False,
            indent=1,
        )
        + "\n"
    )
