"""What the trainer's sheet says: the sums against needs, and all that was taken for granted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from cards.card.model import CardMeta
from cards.diagnostics.diagnostic import Diagnostic, Severity
from cards.foods.components import KJ_PER_KCAL, components
from cards.foods.table import NAME_ONLY, ranges_of, sources
from cards.nutrition import adequacy, needs
from cards.nutrition.adequacy import Density
from cards.nutrition.analysis import Analysis, Portion
from cards.nutrition.feeding import bands
from cards.nutrition.needs import Profile
from cards.source.programme import Programme
from cards.source.recipe import Recipe
from cards.words.numbers import number_range, two

GROUP_NAMES = {
    "grains-roots": "grains and roots",
    "pulses-nuts-seeds": "pulses, nuts and seeds",
    "dairy": "dairy",
    "flesh": "flesh foods",
    "eggs": "eggs",
    "vitamin-a-plants": "fruit and vegetables rich in vitamin A",
    "other-plants": "other fruit and vegetables",
}

CONTRIBUTORS = ("PROCNT", "FE", "ZN", "VITA_RE")
"""Components the sheet says the origin of."""

_KNOWN = {"seen": "seen", "memory": "cited from memory", "computed": "computed"}

_NOT_DOCUMENTS = frozenset(("assumed0", "computed"))
"""What stands as the source of a figure that no table gives."""

MOST_FOODS = 4
"""Foods shown as an origin; the rest are added up."""


@dataclass(frozen=True, slots=True)
class DensityRow:
    """A component per 100 kcal beside what is desired, a cell an age band."""

    name: str
    unit: str
    cells: tuple[Density, ...]


@dataclass(frozen=True, slots=True)
class Threshold:
    """Least energy density for an age band at so many meals a day."""

    band: str
    meals: int
    density: float


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a component comes from: food and share of what is known, largest first."""

    name: str
    shares: tuple[tuple[str, float], ...]
    known_share: float


@dataclass(frozen=True, slots=True)
class SheetTable:
    """A plain table: headings and rows of texts."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything the trainer's sheet says, in order."""

    meta: CardMeta
    title: str
    facts: tuple[str, ...]
    bands: tuple[str, ...]
    densities: tuple[DensityRow, ...]
    energy_density: float | None
    thresholds: tuple[Threshold, ...]
    origins: tuple[Origin, ...]
    portions: SheetTable
    needs: SheetTable
    needs_name: str
    bounds: tuple[str, ...]
    messages: tuple[str, ...]
    assumptions: tuple[str, ...]
    ranges: tuple[str, ...]
    missing: tuple[str, ...]
    sources: tuple[str, ...]


def compose_sheet(
    recipe: Recipe,
    analysis: Analysis,
    diagnostics: Sequence[Diagnostic],
    profile: Profile,
    programme: Programme,
    meta: CardMeta,
) -> Sheet:
    """The sheet of a recipe that was read and summed."""
    served = tuple(p.band for p in analysis.portions)
    return Sheet(
        meta=meta,
        title=meta.title,
        facts=_facts(recipe, analysis, programme),
        bands=served,
        densities=tuple(
            DensityRow(
                components()[tag].name,
                components()[tag].unit,
                tuple(adequacy.density(analysis, tag, band) for band in served),
            )
            for tag in needs.desired_tags()
        ),
        energy_density=analysis.energy_density,
        thresholds=tuple(
            Threshold(band, meals, bands()[band].density_needed(meals))
            for band in served
            for meals in (2, 3, 4, 5)
        ),
        origins=tuple(_origin(analysis, tag) for tag in CONTRIBUTORS),
        portions=_portions(analysis),
        needs=_needs(analysis, profile),
        needs_name=profile.name,
        bounds=tuple(_bounds(analysis)),
        messages=tuple(_message(d) for d in diagnostics),
        assumptions=analysis.assumptions,
        ranges=tuple(_ranges(analysis)),
        missing=tuple(_missing(analysis)),
        sources=tuple(_sources(analysis, profile)),
    )


def _facts(recipe: Recipe, analysis: Analysis, programme: Programme) -> tuple[str, ...]:
    density = analysis.energy_density
    energy = analysis.totals["ENERC"]
    least = "" if energy.complete else "at least "
    told = f"{least}{energy.value:.0f} kcal, {energy.value * KJ_PER_KCAL:.0f} kJ"
    return (
        ", ".join(
            t for t in (programme.said(programme.name), programme.said(programme.place)) if t
        ),
        f"{recipe.path}, version {recipe.version}"
        + (f", {recipe.revised}" if recipe.revised else "")
        + f", digest {recipe.digest}",
        *(
            [f"From: {'; '.join(t for t in (recipe.credit, *recipe.sources) if t)}."]
            if recipe.credit or recipe.sources
            else []
        ),
        f"For children of {recipe.age_from} to {recipe.age_to} months. Cooked: "
        f"{analysis.cooked_g:.0f} g, {analysis.cooked_ml:.0f} ml. "
        f"Energy: {told if energy.known_share else 'not known'}"
        + (f"; {density:.2f} kcal per g." if density is not None else "; density not known."),
        f"Food groups: {', '.join(GROUP_NAMES[g] for g in analysis.groups) or 'none'}.",
    )


def _origin(analysis: Analysis, tag: str) -> Origin:
    total = analysis.totals[tag]
    held: dict[str, float] = {}
    for line in analysis.lines:
        if line.ingredient.optional:
            continue
        held[line.food.name] = held.get(line.food.name, 0.0) + line.at_least(tag)
    whole = sum(held.values())
    if not whole:
        return Origin(components()[tag].name, (), total.known_share)
    ranked = sorted(held.items(), key=lambda item: (-item[1], item[0]))
    shares = [(name, amount / whole) for name, amount in ranked if amount / whole >= 0.005]
    rest = sum(share for _, share in shares[MOST_FOODS:])
    kept = shares[:MOST_FOODS] + ([("others", rest)] if rest else [])
    return Origin(components()[tag].name, tuple(kept), total.known_share)


def _portions(analysis: Analysis) -> SheetTable:
    gaps = {gap.band: gap for gap in adequacy.energy_gap(analysis)}
    low = {gap.band: gap for gap in adequacy.energy_gap(analysis, "low")}
    none = {gap.band: gap for gap in adequacy.energy_gap(analysis, "none")}
    rows = []
    for p in analysis.portions:
        gap, lean, bare = gaps.get(p.band), low.get(p.band), none.get(p.band)
        meals = f"{p.meals[0]}-{p.meals[1]}" if p.meals[0] != p.meals[1] else str(p.meals[0])
        rows.append(
            (
                _months(p),
                f"{number_range(p.low, p.high)} {_many(p.unit, p.high)}, {p.grams_high:.0f} g",
                str(p.texture),
                meals,
                f"{gap.kcal_a_meal:.0f}" if gap else "?",
                f"{gap.share:.0%}" if gap else "?",
                f"{lean.share:.0%}" if lean else "?",
                f"{bare.share:.0%}" if bare else "?",
            )
        )
    return SheetTable(
        (
            "age",
            "one meal",
            "texture",
            "meals a day",
            "kcal a meal",
            "of energy from food*",
            "little breast milk**",
            "no breast milk***",
        ),
        tuple(rows),
    )


def _months(portion: Portion) -> str:
    return f"{number_range(*(Fraction(n) for n in portion.months))} months"


def _many(unit: str, number: Fraction) -> str:
    return f"{unit}s" if number > 1 else unit


def _needs(analysis: Analysis, profile: Profile) -> SheetTable:
    headings = ["a day's need", *(_months(p) for p in analysis.portions)]
    rows = []
    for tag, need in profile.needs.items():
        component = components()[tag]
        total = analysis.totals[tag]
        cells = []
        for p in analysis.portions:
            wanted = need.by_band.get(p.band)
            amount = p.per_portion[tag]
            if wanted is None:
                cells.append("no need given")
            elif not total.judgeable:
                least = f" (at least {amount / wanted:.0%})" if amount else ""
                cells.append(f"cannot tell{least}")
            else:
                sign = "" if total.complete else "at least "
                cells.append(f"{sign}{amount / wanted:.0%} ({two(amount)} of {wanted:g})")
        rows.append((f"{component.name}, {component.unit}", *cells))
    return SheetTable(tuple(headings), tuple(rows))


def _bounds(analysis: Analysis) -> Iterable[str]:
    shares = adequacy.energy_shares(analysis)
    if shares is None:
        yield "Shares of energy: cannot tell."
    else:
        protein = needs.bound("protein_percent")
        yield (
            f"Of the energy {shares['PROCNT']:.0f} % is protein ({protein['low']} to "
            f"{protein['high']} % suits: {needs.source_title(protein['source'])}, "
            f"{_KNOWN[protein['known']]}), {shares['FAT']:.0f} % fat, "
            f"{shares['CHOAVL']:.0f} % carbohydrate."
        )
        target = needs.bound("fat_target_percent")["value"]
        told = []
        for p in analysis.portions:
            band = bands()[p.band]
            wanted = needs.fat_share_needed(
                target, band.energy_plus_2sd / 1.25, band.milk_energy_average
            )
            told.append(f"{wanted:.0f} % at {p.band} months")
        yield (
            f"Fat needed in food for {target} % of all energy, at average breast milk: "
            f"{', '.join(told)} (PAHO/WHO 2003, Table 3)."
        )
    ala = adequacy.ala_share(analysis)
    bound = needs.bound("ala_percent")
    told_ala = "cannot tell" if ala is None else f"{ala:.2f} % of energy"
    yield (
        f"Omega-3 (ALA): {told_ala}; {bound['low']} to {bound['high']} % is advised "
        f"({needs.source_title(bound['source'])})."
    )
    for tag, word, name in (("FE", "iron", "phytate_iron"), ("ZN", "zinc", "phytate_zinc")):
        ratio = adequacy.phytate_ratios(analysis)[tag]
        high = needs.bound(name)
        told_ratio = "cannot tell" if ratio is None else f"{two(ratio)} to 1"
        yield (
            f"Phytate to {word}, molar: {told_ratio}; over {high['high']:g} the {word} is poorly "
            f"taken up ({needs.source_title(high['source'])}, {_KNOWN[high['known']]}). Nothing is "
            "taken off for soaking, sprouting or fermenting."
        )
    yield from _upper(analysis)


def _upper(analysis: Analysis) -> Iterable[str]:
    under: list[str] = []
    unknown: list[str] = []
    for tag, level in (*needs.upper_levels().items(), ("NA", needs.sodium_level())):
        component, total = components()[tag], analysis.totals[tag]
        kind = "adequate intake" if tag == "NA" else "upper level"
        if not total.judgeable:
            unknown.append(component.name)
            continue
        over = [
            f"{p.band} months {two(p.per_portion[tag])} a meal, "
            f"{two(p.per_portion[tag] * p.meals[1])} in {p.meals[1]} meals, "
            f"{kind} {level.by_band[p.band]:g} {component.unit} a day"
            for p in analysis.portions
            if p.per_portion[tag] * p.meals[1] > level.by_band[p.band]
        ]
        if over:
            note = f" ({level.note})" if level.note else ""
            yield f"{component.name}: {'; '.join(over)}{note}."
        else:
            under.append(component.name)
    level = needs.upper_levels()["RETOL"]
    for p in analysis.portions:
        meal = p.per_portion["RETOL"]
        week = 7 * level.by_band[p.band]
        if meal and week / meal < 7 * p.meals[1]:
            yield (
                f"retinol in a week, {p.band} months: one meal holds {two(meal)} ug, so "
                f"{week // meal:.0f} such meals a week stay within {week:g} ug, seven days' "
                "upper level."
            )
    told = f"under them, eaten at every meal, are {', '.join(under)}" if under else ""
    doubt = f"cannot tell of {', '.join(unknown)}" if unknown else ""
    yield (
        f"Upper levels, for sodium the adequate intake ({needs.source_title('iom_ul')}): "
        f"{'; '.join(t for t in (told, doubt) if t) or 'see above'}."
    )


def _message(diagnostic: Diagnostic) -> str:
    word = {Severity.ERROR: "Error", Severity.WARNING: "Warning", Severity.NOTE: "Note"}
    place = f"line {diagnostic.place.line}" if diagnostic.place.line else diagnostic.place.file
    rests = f" Rests on: {diagnostic.source}." if diagnostic.source else ""
    cure = f" Cure: {diagnostic.hint}." if diagnostic.hint else ""
    return (
        f"{word[diagnostic.severity]} {diagnostic.kind}, {place}: {diagnostic.message}."
        f"{cure}{rests}"
    )


def _ranges(analysis: Analysis) -> Iterable[str]:
    for line in analysis.lines:
        spread = ranges_of(line.food.id)
        if not spread or line.edible_g < 1:
            continue
        told = ", ".join(
            f"{components()[tag].name} {two(r.low)} to {two(r.high)} {components()[tag].unit}"
            for tag, r in spread.items()
        )
        yield f"{line.food.name} (per 100 g): {told}"


def _missing(analysis: Analysis) -> Iterable[str]:
    counted = [line.food for line in analysis.lines if not line.ingredient.optional]
    named = list(dict.fromkeys(food.name for food in counted if food.has(NAME_ONLY)))
    if named:
        yield f'all: no figures at all for {", ".join(named)}, so every sum is "at least"'
    for tag, component in components().items():
        total = analysis.totals[tag]
        others = [name for name in total.missing if name not in named]
        if others:
            yield (
                f"{component.name}: known for {total.known_share:.0%} of the dish; "
                f"no figure for {', '.join(others)}"
            )


def _sources(analysis: Analysis, profile: Profile) -> Iterable[str]:
    for line in analysis.lines:
        codes = dict.fromkeys(
            f"{f.source} {f.code}".strip()
            for f in line.food.figures.values()
            if f.source not in _NOT_DOCUMENTS
        )
        told = f": {', '.join(codes)}" if codes else ""
        proxy = f"; stands in: {line.food.note}" if line.food.match == "proxy" else ""
        yield f"{line.food.name}, {line.edible_g:.1f} g ({line.how}){told}{proxy}"
    used = {f.source for line in analysis.lines for f in line.food.figures.values()}
    for key in sorted(used - _NOT_DOCUMENTS):
        if key in sources():
            source = sources()[key]
            yield f"{key}: {source['authors']} ({source['year']}) {source['title']}"
    for key in sorted({need.source for need in profile.needs.values()}):
        yield f"Needs: {needs.source_title(key)}"
    yield f"Desired densities: {needs.source_title('dewey2003')}"
