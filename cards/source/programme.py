"""The programme file: who prints, in which languages, with which measures."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from ipaddress import ip_address
from typing import Annotated, Any
from urllib.parse import quote

from pydantic import Field, PlainValidator, field_validator

from cards.data import load
from cards.diagnostics.diagnostic import Place, Result, error
from cards.source import amounts, nodes
from cards.source.faults import validate
from cards.source.fields import WordsField, fault, one_of
from cards.source.model import Strict
from cards.source.recipe import Words
from cards.source.vocabulary import KITCHEN, VILLAGE_KITCHEN, vocabulary

BANDS = ("6-8", "9-11", "12-23")
"""Age bands in months, as WHO tables have them."""


_FIXED = frozenset(
    (
        "gram",
        "kilogram",
        "millilitre",
        "litre",
        "handful",
        "each",
        "piece",
        "small",
        "medium",
        "large",
        "leaf",
        "portion",
        "share",
        "clove",
        "slice",
        "inch",
        "of",
    )
)
"""Measures that have no content of their own, or one that is not for anyone to change."""

CLAIMS = ("desired-density", "codex-cxg-23")
"""Criteria for statements such as "rich in iron"."""


MILK_ADVICE = ("who-2023", "from-12-months")
"""WHO (2023): children of 6 to 11 months who are not breastfed may be given animal milk; other
advice, as that of the US CDC: no animal milk as a drink before 12 months."""


USUAL_LANGUAGES: tuple[str, ...] = tuple(load.mapping("languages.yaml")["usual"])
"""What a programme prints that names no languages."""


@dataclass(frozen=True, slots=True)
class Programme:
    """Everything a card takes from whoever prints it."""

    name: Words = field(default_factory=dict)
    place: Words = field(default_factory=dict)
    link: str = ""
    languages: tuple[str, ...] = USUAL_LANGUAGES
    measures_ml: Mapping[str, float] = field(default_factory=dict)
    """Content of the local measures in ml, where the programme gives them."""
    bands: tuple[str, ...] = BANDS
    layout: str = "hand-card"
    needs: str = "who"
    """Key of the set of daily needs."""
    claims: str = "desired-density"
    """The criterion statements are checked by."""
    milk: str = "who-2023"
    """Whose advice on animal milk as a drink before 12 months is followed."""
    kitchen: frozenset[str] = VILLAGE_KITCHEN
    """What the kitchens have that the recipes are cooked in."""
    cooker_ml: float = 3000
    """What a pressure cooker of this programme holds; 3 l (common practice)."""
    at: Place = field(default_factory=lambda: Place("programme.yaml"))
    chosen: tuple[str, ...] = ()
    """Languages asked for in place of the programme's own; empty where none were."""

    known: tuple[str, ...] = ()
    """Languages that there are words for, so that a card may be asked for in them."""

    @property
    def printed(self) -> tuple[str, ...]:
        """The languages a card is printed in, the first of them larger."""
        return self.chosen or self.languages

    def said(self, words: Words, language: str = "") -> str:
        """Name or place in a language, else in the first printed, else as it is given first."""
        codes = (language, *self.printed, *self.languages)
        return next((words[code] for code in codes if code in words), "")

    def address(self, path: str) -> str:
        """Where a file of the programme is found by its ``path``; the path alone without a link."""
        base = self.link if not self.link or self.link.endswith("/") else f"{self.link}/"
        return base + quote(path)

    @property
    def suffix(self) -> str:
        """What the names of files made in other languages end in, as ".en-ta"."""
        return "" if self.printed == self.languages else f".{'-'.join(self.printed)}"


_LABEL = "[A-Za-z0-9](?:[A-Za-z0-9-]{0,61}[A-Za-z0-9])?"
_ADDRESS = re.compile(
    rf"https?://(?P<host>{_LABEL}(?:\.{_LABEL})*|\[[0-9A-Fa-f:.]+\])(?::(?P<port>[0-9]{{1,5}}))?"
    r"(?:/(?:[A-Za-z0-9._~!$&()*+,;=:@/-]|%[0-9A-Fa-f]{2})*)?",
    re.IGNORECASE | re.ASCII,
)
"""A host of RFC 1123 labels or an address in brackets, a port, a path of RFC 3986 characters;
no user name, since what is printed on a card is no secret."""


def is_address(text: str) -> bool:
    """Whether a text is a web address that a telephone can open."""
    found = _ADDRESS.fullmatch(text)
    if found is None or not 0 < int(found["port"] or 80) < 65536 or len(found["host"]) > 253:
        return False
    host = found["host"].strip("[]")
    if not found["host"].startswith("[") and not re.fullmatch(r"[0-9.]+", host):
        return True
    try:
        return str(ip_address(host)) != ""
    except ValueError:
        return False


def _cooker(value: Any) -> float:
    """The content of a pressure cooker in ml."""
    size = millilitres(value) if isinstance(value, str) else 0
    if not 1000 <= size <= 20_000:
        raise fault(
            "value-wrong", f'a pressure cooker does not hold "{value}"', "write it like 3 l"
        )
    return size


KitchenName = Annotated[str, one_of(KITCHEN, "value-wrong", "a thing in a kitchen")]


class ProgrammeIn(Strict):
    """A programme file."""

    programme: str
    name: WordsField
    place: WordsField = Field(default_factory=dict)
    link: str = ""
    languages: list[str] = Field(
        default_factory=lambda: list(USUAL_LANGUAGES), min_length=1, max_length=2
    )
    measures: dict[str, str] = Field(default_factory=dict, max_length=40)
    ages: list[str] = Field(
        default_factory=lambda: list(BANDS), min_length=1, max_length=len(BANDS)
    )
    layout: str = "hand-card"
    needs: str = "who"
    claims: Annotated[str, one_of(CLAIMS, "value-wrong", "a criterion")] = "desired-density"
    milk: Annotated[str, one_of(MILK_ADVICE, "value-wrong", "advice on milk")] = "who-2023"
    kitchen: list[KitchenName] = Field(
        default_factory=lambda: sorted(VILLAGE_KITCHEN), max_length=2 * len(KITCHEN)
    )
    cooker: Annotated[float, PlainValidator(_cooker)] = 3000
    notes: str = ""

    @field_validator("programme")
    @classmethod
    def _format(cls, value: str) -> str:
        if value != "1":
            raise fault("format-unknown", f'"{value}" is no format version', "write programme: 1")
        return value

    @field_validator("link")
    @classmethod
    def _link(cls, value: str) -> str:
        how = "write it like https://example.org/recipes/"
        if value and not is_address(re.split(r"[?#]", value)[0]):
            raise fault("link-wrong", f'"{value[:60]}" is not a web address', how)
        if re.search(r"[?#]", value):
            raise fault(
                "link-wrong",
                "the link base holds more than an address",
                "end it with a slash, without ? or #",
            )
        if len(value) > 120:
            raise fault(
                "link-wrong",
                "the link base is too long for a small QR code",
                "use an address of at most 120 characters",
            )
        return value

    @field_validator("languages")
    @classmethod
    def _languages(cls, value: list[str]) -> list[str]:
        for code in value:
            if not re.fullmatch("[a-z]{2,3}", code):
                raise fault(
                    "language-unknown", f'"{code[:20]}" is not a language code', "write en, hi, ..."
                )
        return value

    @field_validator("layout")
    @classmethod
    def _layout(cls, value: str) -> str:
        if not re.fullmatch("[a-z][a-z0-9-]{0,40}", value):
            raise fault(
                "layout-unknown", f'"{value[:40]}" is not the name of a layout', "choose hand-card"
            )
        return value

    @field_validator("measures")
    @classmethod
    def _measures(cls, value: dict[str, str]) -> dict[str, str]:
        words = vocabulary().measures
        kept: dict[str, str] = {}
        for name, size in value.items():
            canonical = words.get(name, name)
            if not 0.05 <= millilitres(size) <= 5000:
                raise fault(
                    "value-wrong",
                    f"a {name} cannot hold {size}",
                    "write its content in ml, between 0.05 and 5000",
                )
            if not re.fullmatch(r"[a-z]{2,20}( [a-z]{1,20})?", name) or canonical in _FIXED:
                raise fault(
                    "value-wrong",
                    f'"{name}" cannot be the name of a measure',
                    "cups, bowls, spoons, glasses, ladles and names of your own have sizes",
                )
            kept[canonical] = size
        return kept

    @field_validator("ages")
    @classmethod
    def _ages(cls, value: list[str]) -> list[str]:
        for band in value:
            if band not in BANDS:
                raise fault(
                    "value-wrong", f'"{band}" is not an age band', f"choose from {', '.join(BANDS)}"
                )
        return value


def millilitres(text: str) -> float:
    """The content of a measure, as in "240 ml". Raises a pydantic error otherwise."""
    units = vocabulary().measures
    try:
        amount, rest = amounts.read_amount(text, units)
    except amounts.Unreadable as trouble:
        raise fault(trouble.kind, str(trouble), "write it like 250 ml") from None
    if rest or amount.unit not in ("millilitre", "litre") or amount.low != amount.high:
        raise fault("value-wrong", f'"{text}" is not a volume', "write it like 250 ml")
    return float(amount.low) * (1000 if amount.unit == "litre" else 1)


def read_programme(text: str, file: str) -> Result[Programme]:
    """A programme file's text as a ``Programme``."""
    tree = nodes.read_nodes(text, file)
    if tree.value is None or tree.failed:
        return Result(None, tree.diagnostics)
    model, faults = validate(ProgrammeIn, tree.value)
    if model is None:
        return Result(None, tuple(faults))
    first = model.languages[0]
    if first not in model.name and "" not in model.name:
        missing = error(
            tree.value.place(("name",)),
            "language-missing",
            f'the name has no text in "{first}"',
            "write name: {en: ..., hi: ...}",
        )
        return Result(None, (missing,))

    def words(given: Any) -> Words:
        return {code or first: line for code, line in given.items()}

    return Result(
        Programme(
            name=words(model.name),
            place=words(model.place),
            link=model.link,
            languages=tuple(dict.fromkeys(model.languages)),
            measures_ml={name: millilitres(size) for name, size in model.measures.items()},
            bands=tuple(band for band in BANDS if band in model.ages),
            layout=model.layout,
            needs=model.needs,
            claims=model.claims,
            milk=model.milk,
            kitchen=frozenset(model.kitchen),
            cooker_ml=model.cooker,
            at=Place(file),
        )
    )
