"""The charts of the trainer's sheet in words, for whoever has them read aloud."""

from __future__ import annotations

from cards.card.sheet import DensityRow, Origin, Sheet
from cards.nutrition.adequacy import Density, Standing
from cards.words.numbers import two


def densities(sheet: Sheet) -> str:
    """A sentence a component: what 100 kcal bring of what is desired, age by age."""
    return " ".join(_row(row, sheet.bands) for row in sheet.densities)


def _row(row: DensityRow, bands: tuple[str, ...]) -> str:
    told = [
        f"{_months(band)} {_density(density)}"
        for band, density in zip(bands, row.cells, strict=True)
    ]
    return f"{row.name}, {row.unit}: {'; '.join(told)}."


def _density(density: Density) -> str:
    if density.per_100_kcal is None or density.standing is Standing.UNKNOWN:
        return "not known"
    least = "at least " if density.least else ""
    enough = "enough" if density.standing is Standing.ENOUGH else "short"
    return f"{least}{two(density.per_100_kcal)} of {two(density.desired)}, {enough}"


def thickness(sheet: Sheet) -> str:
    """The dish's kcal per g, then the least for each age by the number of meals a day."""
    dish = sheet.energy_density
    first = "not known" if dish is None else f"{dish:.2f} kcal per g"
    told = [f"This dish: {first}."]
    for band in sheet.bands:
        least = [
            f"{threshold.density:.2f} at {threshold.meals} meals"
            for threshold in sheet.thresholds
            if threshold.band == band
        ]
        told.append(f"Least at {_months(band)}: {', '.join(least)}.")
    return " ".join(told)


def origins(sheet: Sheet) -> str:
    """A sentence a component: the foods that bring it with their shares, largest first."""
    return " ".join(_origin(origin) for origin in sheet.origins)


def _origin(origin: Origin) -> str:
    if not origin.shares:
        return f"{origin.name}: {'not known' if origin.known_share < 0.8 else 'none'}."
    return f"{origin.name}: {', '.join(f'{name} {share:.0%}' for name, share in origin.shares)}."


def _months(band: str) -> str:
    return f"{band.replace('-', '–')} months"
