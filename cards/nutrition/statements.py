"""Statements such as "rich in iron", held against a named criterion."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cards.data import load
from cards.diagnostics.diagnostic import Diagnostic, Place, error, warning
from cards.diagnostics.nearest import did_you_mean
from cards.foods.components import components
from cards.nutrition import adequacy, needs
from cards.nutrition.adequacy import Standing
from cards.nutrition.analysis import Analysis
from cards.source.recipe import Recipe


def check_statements(recipe: Recipe, analysis: Analysis, criterion: str) -> Iterator[Diagnostic]:
    """One message for each statement that is not borne out, or cannot be told."""
    for text, at in recipe.statements:
        level, tag = read_statement(text)
        if not level or not tag:
            yield error(
                at,
                "statement-unreadable",
                f'"{text}" cannot be checked',
                _how(text.rpartition(" ")[2]),
            )
            continue
        yield from _judge(text, at, level, tag, analysis, criterion)


def read_statement(text: str) -> tuple[str, str]:
    """Level (rich or source) and component tag of a statement; empty where it has none."""
    data = load.mapping("claims.yaml")
    plain = " ".join(text.casefold().split())
    names: dict[str, str] = {}
    for tag, component in components().items():
        names.setdefault(component.name.partition(" (")[0].casefold(), tag)
    names.update(data["also"])
    for level, heads in data["words"].items():
        for head in sorted(heads, key=len, reverse=True):
            if plain.startswith(head + " "):
                return level, names.get(plain[len(head) + 1 :], "")
    return "", ""


def _how(word: str) -> str:
    names = [c.name.partition(" (")[0] for c in components().values()]
    return did_you_mean(word, names, 'write it like "rich in iron" or "source of protein"')


def _judge(
    text: str, at: Place, level: str, tag: str, analysis: Analysis, criterion: str
) -> Iterator[Diagnostic]:
    name = load.mapping("claims.yaml")[criterion]["name"]
    if criterion == "codex-cxg-23":
        standing, figure = _codex(level, tag, analysis)
    else:
        standing, figure = _desired(level, tag, analysis)
    if standing is Standing.UNKNOWN:
        yield warning(
            at,
            "statement-unknown",
            f'"{text}": cannot tell; {figure}',
            "take it out, or use foods whose figures are known",
        )
    elif standing is Standing.SHORT:
        yield error(
            at,
            "statement-unsupported",
            f'"{text}" is not so: {figure}; by {name}',
            "take the statement out, or change the dish",
        )


def _desired(level: str, tag: str, analysis: Analysis) -> tuple[Standing, str]:
    key = "VITA_RE" if tag == "VITA_RAE" else tag
    if key not in needs.desired_tags():
        return Standing.UNKNOWN, f"there is no desired density of {components()[tag].name}"
    found = [adequacy.density(analysis, key, p.band) for p in analysis.portions]
    unit = components()[key].unit
    told = ", ".join(
        f"{d.band} months {'?' if d.per_100_kcal is None else f'{d.per_100_kcal:.2g}'}"
        f" of {d.desired:.2g} {unit}"
        for d in found
    )
    return _together(level, (d.standing for d in found)), f"per 100 kcal {told}"


def _together(level: str, standings: Iterable[Standing]) -> Standing:
    """Rich needs every band, source needs one; an unknown leaves it open."""
    found = list(standings)
    enough = [s is Standing.ENOUGH for s in found]
    if found and (all(enough) or (level == "source" and any(enough))):
        return Standing.ENOUGH
    if Standing.UNKNOWN in found and (level == "source" or Standing.SHORT not in found):
        return Standing.UNKNOWN
    return Standing.SHORT if found else Standing.UNKNOWN


def _codex(level: str, tag: str, analysis: Analysis) -> tuple[Standing, str]:
    data = load.mapping("claims.yaml")["codex-cxg-23"]
    factor = data["rich_factor"] if level == "rich" else 1
    total = analysis.totals[tag]
    per_kcal = analysis.per_100_kcal(tag)
    if tag == "FIBTG":
        limits = {basis: factor * grams for basis, grams in data["fibre_g"].items()}
    elif tag in data["nrv"]:
        percent = data["protein_percent"] if tag == "PROCNT" else data["source_percent"]
        limits = {b: factor * p * data["nrv"][tag] / 100 for b, p in percent.items()}
    else:
        return Standing.UNKNOWN, f"the table has no condition for {components()[tag].name}"
    amounts = {"per_100_g": analysis.per_100_g(tag), "per_100_kcal": per_kcal or 0.0}
    unit = components()[tag].unit
    told = "; ".join(
        f"{amounts[b]:.2g} {unit} {b.replace('_', ' ')} of {limits[b]:.2g}" for b in limits
    )
    if any(amounts[basis] >= limit for basis, limit in limits.items()):
        return Standing.ENOUGH, told
    return (Standing.SHORT if total.judgeable else Standing.UNKNOWN), told
