"""What breast milk brings in a day, at average and at low intake, or where there is none."""

from __future__ import annotations

from cards.data import load
from cards.nutrition.feeding import bands

RETINOL_OF = {"RETOL": "VITA_RE"}
"""Vitamin A of breast milk is counted as retinol, on the safe side: little of it is carotene
(common knowledge of the trade)."""


def litres(band: str, milk: str = "average") -> float:
    """Litres a day: as published at average (Dewey and Brown 2003).

    At low intake (two standard deviations under the mean) computed from the
    energies of PAHO/WHO (2003), since milk of the same kind holds the same
    energy: average litres x low kcal / average kcal. "none" is none.
    """
    if milk == "none":
        return 0.0
    average = float(load.mapping("needs.yaml")["desired"]["milk_l"][band])
    if milk == "average":
        return average
    facts = bands()[band]
    return average * facts.milk_energy_low / facts.milk_energy_average


def energy(band: str, milk: str = "average") -> float:
    """kcal a day from breast milk (PAHO/WHO 2003)."""
    if milk == "none":
        return 0.0
    facts = bands()[band]
    return facts.milk_energy_low if milk == "low" else facts.milk_energy_average


def holds(tag: str, band: str, milk: str = "average") -> float | None:
    """Amount of a component a day, in its unit; None where no content of it is published here.

    No breast milk holds nothing, of whatever it is.
    """
    if milk == "none":
        return 0.0
    needs = load.mapping("needs.yaml")["desired"]["needs"]
    facts = needs.get(RETINOL_OF.get(tag, tag))
    return None if facts is None else float(facts["milk_per_l"]) * litres(band, milk)
