"""Field types of a session file: a day, an hour, counts, a price, how the market sells a food."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from cards.source import amounts
from cards.source.fields import check_length, fault
from cards.source.vocabulary import vocabulary

MOST_COPIES = 1000
"""More of anything than one day of training needs; a larger number is a slip of the pen."""

PACKS = ("bunch", "packet", "bottle", "piece")
"""What a market may sell a food in, besides its weight."""


@dataclass(frozen=True, slots=True)
class Price:
    """What a sheet of paper costs, printed."""

    amount: Decimal
    currency: str


@dataclass(frozen=True, slots=True)
class Sale:
    """How the market sells a food: in a ``pack`` that holds ``grams`` or ``ml``."""

    pack: str
    grams: float
    ml: float


def _text(value: Any, how: str) -> str:
    if not isinstance(value, str) or not value.strip():
        raise fault("value-wrong", "this should be a single text", how)
    return " ".join(check_length(value).split())


def _date(value: Any) -> date:
    how = "write year, month and day, like 2026-11-26"
    text = _text(value, how)
    found = re.fullmatch(r"(\d{4})-(\d{2})-(\d{2})", text, re.ASCII)
    try:
        if found is None:
            raise ValueError(text)
        day = date(*(int(part) for part in found.groups()))
    except ValueError:
        raise fault("value-wrong", f'"{text[:40]}" is no date', how) from None
    if not 2000 <= day.year < 2100:
        raise fault("value-wrong", f"{day} is not a day of this century", how)
    return day


def _clock(value: Any) -> time:
    how = "write the hour from 0 to 23 and the minutes, like 10:00 or 14:30"
    text = _text(value, how)
    found = re.fullmatch(r"(\d{1,2})(?::(\d{2}))?", text, re.ASCII)
    if found is None or int(found[1]) > 23 or int(found[2] or 0) > 59:
        raise fault("value-wrong", f'"{text[:40]}" is no hour of the day', how)
    return time(int(found[1]), int(found[2] or 0))


def _count(value: Any) -> int:
    if isinstance(value, int):  # a default
        return value
    how = f"write a whole number, {MOST_COPIES} at most"
    text = _text(value, how)
    if not re.fullmatch(r"\d{1,9}", text, re.ASCII):
        raise fault("value-wrong", f'"{text[:40]}" is no whole number', how)
    if int(text) > MOST_COPIES:
        raise fault("value-wrong", f"{text} is more than one day needs", how)
    return int(text)


def _price(value: Any) -> Price:
    how = "write a number and a currency of three letters, like 1.50 INR"
    text = _text(value, how)
    found = re.fullmatch(r"(\d{1,5}(?:\.\d{1,2})?) ([A-Z]{3})", text, re.ASCII)
    if found is None or not Decimal(found[1]):
        raise fault("value-wrong", f'"{text[:40]}" is no price of a sheet', how)
    return Price(Decimal(found[1]), found[2])


def _sale(value: Any) -> Sale:
    how = f"write it like bunch of 250 g or packet of 500 ml; known: {', '.join(PACKS)}"
    text = _text(value, how)
    found = re.fullmatch(r"([a-z]+) of (.+)", text)
    if found is None or found[1] not in PACKS:
        raise fault("value-wrong", f'"{text[:60]}" does not say how it is sold', how)
    try:
        amount, rest = amounts.read_amount(found[2], vocabulary().measures)
    except amounts.Unreadable:
        raise fault("value-wrong", f'"{found[2][:40]}" is no weight or volume', how) from None
    size = float(amount.low) * (1000 if amount.unit in ("kilogram", "litre") else 1)
    kinds = ("gram", "kilogram", "millilitre", "litre")
    if rest or amount.unit not in kinds or amount.low != amount.high or not 1 <= size <= 50_000:
        raise fault("value-wrong", f'"{found[2][:40]}" is no weight or volume', how)
    weighed = amount.unit in ("gram", "kilogram")
    return Sale(found[1], size if weighed else 0.0, 0.0 if weighed else size)


def is_code(value: Any) -> bool:
    """Whether a value may be a code of a language."""
    return isinstance(value, str) and re.fullmatch("[a-z]{2,3}", value) is not None


_TEXT_OR_NUMBER = WithJsonSchema({"type": ["string", "number"]})

DateField = Annotated[date, PlainValidator(_date), WithJsonSchema({"type": "string"})]
ClockField = Annotated[time, PlainValidator(_clock), _TEXT_OR_NUMBER]
CountField = Annotated[int, PlainValidator(_count), _TEXT_OR_NUMBER]
PriceField = Annotated[Price, PlainValidator(_price), WithJsonSchema({"type": "string"})]
SaleField = Annotated[Sale, PlainValidator(_sale), WithJsonSchema({"type": "string"})]
