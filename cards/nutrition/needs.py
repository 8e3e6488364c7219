"""Needs by age and profile, desired densities and upper levels, from data/needs.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from cards.data import load
from cards.nutrition.feeding import bands


@dataclass(frozen=True, slots=True)
class Need:
    """A figure by age band, in the component's unit a day, and where it comes from."""

    tag: str
    by_band: Mapping[str, float]
    source: str
    known: str
    note: str


@dataclass(frozen=True, slots=True)
class Profile:
    """A set of daily needs that a programme works with."""

    key: str
    name: str
    needs: Mapping[str, Need]


def profile_keys() -> tuple[str, ...]:
    """Names of the shipped profiles."""
    return tuple(load.mapping("needs.yaml")["profiles"])


def profile(key: str) -> Profile:
    """A shipped profile. Raises KeyError."""
    facts = load.mapping("needs.yaml")["profiles"][key]
    return make_profile(key, facts)


def make_profile(key: str, facts: Mapping[str, Any]) -> Profile:
    """A profile from its file form, the shipped one's or a programme's."""
    return Profile(key, facts["name"], {t: _need(t, f) for t, f in facts["needs"].items()})


def _need(tag: str, facts: Mapping[str, Any]) -> Need:
    return Need(
        tag,
        {band: float(facts[band]) for band in bands() if band in facts},
        str(facts.get("source", "")),
        str(facts.get("known", "")),
        str(facts.get("note", "")),
    )


@cache
def upper_levels() -> Mapping[str, Need]:
    """Tolerable upper levels a day by tag."""
    return {tag: _need(tag, facts) for tag, facts in load.mapping("needs.yaml")["upper"].items()}


@cache
def sodium_level() -> Need:
    """Sodium a day that food need not go beyond, mg."""
    return _need("NA", load.mapping("needs.yaml")["sodium_mg"])


@cache
def desired_tags() -> tuple[str, ...]:
    """Components that have a desired density."""
    return tuple(load.mapping("needs.yaml")["desired"]["needs"])


@cache
def desired_density(tag: str, band: str) -> float:
    """What 100 kcal of food should hold of a component (Dewey and Brown 2003).

    100 x (need - breast-milk volume x its content) / energy from food, at
    average breast-milk intake; in the component's unit, unrounded.
    """
    data = load.mapping("needs.yaml")["desired"]
    facts = data["needs"][tag]
    left = facts[band] - data["milk_l"][band] * facts["milk_per_l"]
    return float(100 * left / data["food_kcal"][band])


def fat_share_needed(target: float, energy: float, milk_energy: float) -> float:
    """Percent of food energy that must be fat for ``target`` percent of all energy.

    (target x total - f x milk) / (total - milk), f the fat share of breast
    milk; never under nothing (PAHO/WHO 2003, Table 3).
    """
    share = float(load.mapping("needs.yaml")["shares"]["milk_fat_share"]["value"])
    return max(0.0, (target * energy - 100 * share * milk_energy) / (energy - milk_energy))


def bound(name: str) -> Mapping[str, Any]:
    """A share or ratio the sheet speaks of, with its source."""
    found: Mapping[str, Any] = load.mapping("needs.yaml")["shares"][name]
    return found


@cache
def source_title(key: str) -> str:
    """The document a source key stands for."""
    return str(load.mapping("needs.yaml")["sources"].get(key, key))
