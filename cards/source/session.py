"""The session file: one training day, whom it feeds with paper, and what is cooked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import PurePosixPath
from typing import Annotated, Any, Literal

from pydantic import Field, WithJsonSchema, field_validator

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.source import nodes
from cards.source.faults import validate
from cards.source.fields import WordsField, fault, one_of
from cards.source.model import Strict
from cards.source.nodes import Path, Tree
from cards.source.programme import Programme
from cards.source.read import digest_of
from cards.source.recipe import Words
from cards.source.session_fields import (
    ClockField,
    CountField,
    DateField,
    Price,
    PriceField,
    Sale,
    SaleField,
    is_code,
)

Flip = Literal["long", "short"]
"""The edge of the sheet about which the printer turns it."""

FEEDING = "feeding"
"""What the chart of feeding by age is called in a session file."""

SIZES = {FEEDING: ("a2", "a1"), "": ("a3", "a2")}
"""Sizes a chart comes in, the usual one first: of feeding by age, and of a dish."""

MOST_RECIPES, MOST_VILLAGES, MOST_CHARTS = 20, 200, 20
"""More than any day of training has."""


@dataclass(frozen=True, slots=True)
class Village:
    """Where cards go: ``copies`` of each dish, in one or two languages."""

    name: Words
    languages: tuple[str, ...]
    copies: int
    at: Place


@dataclass(frozen=True, slots=True)
class Chart:
    """A wall chart: of feeding by age, or of the dish ``of``."""

    of: str
    size: str
    whole: bool
    tiled: bool
    languages: tuple[str, ...]
    at: Place


@dataclass(frozen=True, slots=True)
class Session:
    """What is needed for one day of training."""

    id: str
    """File name without its ending."""
    title: Words
    starts: datetime
    place: Words
    trainees: int
    groups: int
    """Groups that cook; each cooks every dish once."""
    children: int
    """Children who come to eat; 0 where nobody has counted them."""
    recipes: tuple[tuple[str, Place], ...]
    """Recipe files' names without their ending, each with its place."""
    villages: tuple[Village, ...]
    spare: int
    flip: Flip
    charts: tuple[Chart, ...]
    price: Price | None
    market: Mapping[str, Sale]
    """How the market sells a food, by the food's name as written."""
    at: Place
    places: Mapping[str, Place]
    """Places of the file's values by their keys joined with dots, as ``market.spinach``."""
    digest: str = ""
    """Ten hex digits over the file's text; of a session put in order, over all it rests on."""
    drafts: tuple[str, ...] = ()
    """Languages in which words of its papers are a draft."""

    def at_key(self, key: str) -> Place:
        """The place of a value, or of the file."""
        return self.places.get(key, self.at)


SizeField = Annotated[
    str,
    one_of(("a1", "a2", "a3"), "value-wrong", "a size of a chart"),
    WithJsonSchema({"enum": ["a1", "a2", "a3"]}),
]
PrintField = Annotated[
    str,
    one_of(("whole", "tiled", "both"), "value-wrong", "a way to print a chart"),
    WithJsonSchema({"enum": ["whole", "tiled", "both"]}),
]
LanguagesField = Annotated[list[str], Field(min_length=1, max_length=2)]


class VillageIn(Strict):
    """A village of a session file."""

    village: WordsField
    languages: LanguagesField
    copies: CountField

    @field_validator("languages")
    @classmethod
    def _languages(cls, value: list[str]) -> list[str]:
        return _codes(value)


class ChartIn(Strict):
    """A wall chart of a session file."""

    chart: str = Field(min_length=1, max_length=80)
    size: SizeField = ""
    print: PrintField = "tiled"
    languages: LanguagesField | None = None

    @field_validator("languages")
    @classmethod
    def _languages(cls, value: list[str] | None) -> list[str] | None:
        return value and _codes(value)


class SessionIn(Strict):
    """A session file."""

    session: str
    title: WordsField
    date: DateField
    starts: ClockField
    place: WordsField = Field(default_factory=dict)
    trainees: CountField
    groups: CountField
    children: CountField = 0
    recipes: list[str] = Field(min_length=1, max_length=MOST_RECIPES)
    villages: list[VillageIn] = Field(min_length=1, max_length=MOST_VILLAGES)
    spare: CountField = 0
    paper: Annotated[str, one_of(("a4",), "value-wrong", "a paper that is known here")] = "a4"
    flip: Annotated[Flip, one_of(("long", "short"), "value-wrong", "an edge to turn about")] = (
        "long"
    )
    charts: list[ChartIn] = Field(default_factory=list, max_length=MOST_CHARTS)
    price: PriceField | None = None
    market: dict[str, SaleField] = Field(default_factory=dict, max_length=100)
    notes: str = ""

    @field_validator("session")
    @classmethod
    def _format(cls, value: str) -> str:
        if value != "1":
            raise fault("format-unknown", f'"{value}" is no format version', "write session: 1")
        return value

    @field_validator("groups")
    @classmethod
    def _groups(cls, value: int) -> int:
        if not 1 <= value <= 50:
            raise fault(
                "value-wrong",
                f"{value} groups cannot cook",
                "write how many groups cook side by side, 1 to 50",
            )
        return value

    @field_validator("trainees")
    @classmethod
    def _trainees(cls, value: int) -> int:
        if value < 1:
            raise fault("value-wrong", "nobody is trained", "write how many come, 1 or more")
        return value


def read_session(text: str, file: str, programme: Programme) -> Result[Session]:
    """A session file's text as a ``Session``. Titles need a text in the programme's languages."""
    read = nodes.read_nodes(text, file)
    if read.value is None or read.failed:
        return Result(None, read.diagnostics)
    tree = read.value
    model, faults = validate(SessionIn, tree)
    if model is None:
        return Result(None, tuple(faults))
    faults += _crossed(model, tree, programme)
    if faults:
        return Result(None, tuple(faults))
    session = _session(model, tree, file, programme.languages)
    return Result(replace(session, digest=digest_of(text)))


def _session(model: SessionIn, tree: Tree, file: str, languages: tuple[str, ...]) -> Session:
    first = languages[0]

    def words(given: Mapping[str, str]) -> Words:
        return {code or first: line for code, line in given.items()}

    villages = tuple(
        Village(
            words(one.village),
            tuple(dict.fromkeys(one.languages)),
            one.copies,
            tree.place(("villages", n)),
        )
        for n, one in enumerate(model.villages)
    )
    charts = tuple(
        Chart(
            one.chart,
            one.size or SIZES.get(one.chart, SIZES[""])[0],
            one.print != "tiled",
            one.print != "whole",
            tuple(dict.fromkeys(one.languages or languages)),
            tree.place(("charts", n)),
        )
        for n, one in enumerate(model.charts)
    )
    return Session(
        id=PurePosixPath(file).stem,
        title=words(model.title),
        starts=datetime.combine(model.date, model.starts),
        place=words(model.place),
        trainees=model.trainees,
        groups=model.groups,
        children=model.children,
        recipes=tuple((name, tree.place(("recipes", n))) for n, name in enumerate(model.recipes)),
        villages=villages,
        spare=model.spare,
        flip=model.flip,
        charts=charts,
        price=model.price,
        market=model.market,
        at=tree.place(()),
        places={".".join(map(str, path)): at for path, at in tree.places.items() if path},
    )


def _crossed(model: SessionIn, tree: Tree, programme: Programme) -> list[Diagnostic]:
    """What no field can see alone."""
    found: list[Diagnostic] = []
    if model.groups > model.trainees:
        found.append(
            error(
                tree.place(("groups",)),
                "value-wrong",
                f"{model.groups} groups are more than {model.trainees} trainees",
                "write how many groups cook, each of several trainees",
            )
        )
    for n, name in enumerate(model.recipes):
        if name in model.recipes[:n]:
            found.append(
                error(
                    tree.place(("recipes", n)),
                    "value-wrong",
                    f"{name} is listed twice",
                    "list each dish once; every group cooks it once",
                )
            )
    for n, chart in enumerate(model.charts):
        sizes = SIZES.get(chart.chart, SIZES[""])
        if chart.size and chart.size not in sizes:
            found.append(
                error(
                    tree.place(("charts", n, "size")),
                    "value-wrong",
                    f"the chart {chart.chart} does not come in {chart.size}",
                    f"choose {' or '.join(sizes)}",
                )
            )
        same = [(one.chart, one.size, one.languages) for one in model.charts[:n]]
        if (chart.chart, chart.size, chart.languages) in same:
            found.append(
                error(
                    tree.place(("charts", n)),
                    "value-wrong",
                    f"the chart {chart.chart} is listed twice",
                    "list it once, with print: both for whole and tiled",
                )
            )
    texts: list[tuple[Mapping[str, str], Path]] = [(model.title, ("title",))]
    texts += [(model.place, ("place",))] if model.place else []
    for given, path in texts:
        for code in programme.languages:
            if code not in given and (code != programme.languages[0] or "" not in given):
                found.append(
                    error(
                        tree.place(path),
                        "language-missing",
                        f'this has no text in "{code}"',
                        "write {en: ..., hi: ...}, a text for each language of the programme",
                    )
                )
    return found


def _codes(value: list[Any]) -> list[str]:
    for code in value:
        if not is_code(code):
            shown = re.sub(r"\s+", " ", str(code))[:20]
            raise fault("language-unknown", f'"{shown}" is not a language code', "write en, hi")
    return value
