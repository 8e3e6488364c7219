"""Amounts as people write them, read into exact fractions."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

EACH = "each"
"""The unit of a bare count, as in "2 eggs"; "2 pieces" of fish are something else."""


SHARE = "share"
"""The unit of a part of all there is, as in "half of the ghee"."""

PORTION = "portion"
"""The unit of what a dish is said to feed: one child's meal."""

_PLURALS = {
    "leaf": "leaves",
    "pinch": "pinches",
    "inch": "inches",
    "glass": "glasses",
    "small": "small",
    "medium": "medium",
    "large": "large",
}


def mixed(number: Fraction) -> str:
    """A number as people write it: 1 1/2, not 3/2."""
    whole, part = divmod(number, 1)
    return " ".join(str(n) for n in (whole, part) if n) or "0"


@dataclass(frozen=True, slots=True)
class Amount:
    """A number or range of a named measure; ``low == high`` where no range was given."""

    low: Fraction
    high: Fraction
    unit: str

    @property
    def middle(self) -> Fraction:
        """The value sums are made with: the middle of a range."""
        return (self.low + self.high) / 2

    def __str__(self) -> str:
        low, high = mixed(self.low), mixed(self.high)
        number = low if low == high else f"{low}-{high}"
        if self.unit == EACH:
            return number
        if self.unit == SHARE:
            return f"{number} of the"
        many = _PLURALS.get(self.unit, f"{self.unit}s")
        return f"{number} {many if self.high > 1 else self.unit}"


@dataclass(frozen=True, slots=True)
class Duration:
    """Minutes, as a range; ``overnight`` where the recipe says so."""

    low: Fraction
    high: Fraction
    overnight: bool = False


class Unreadable(ValueError):
    """A text that is no amount. ``hint`` says what would be; ``kind`` names the fault."""

    def __init__(self, message: str, hint: str, kind: str = "amount-unreadable") -> None:
        super().__init__(message)
        self.hint = hint
        self.kind = kind


_WORDS = {
    "half": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "third": Fraction(1, 3),
    "one": Fraction(1),
    "two": Fraction(2),
    "three": Fraction(3),
    "four": Fraction(4),
    "five": Fraction(5),
    "six": Fraction(6),
    "seven": Fraction(7),
    "eight": Fraction(8),
    "nine": Fraction(9),
    "ten": Fraction(10),
    "a": Fraction(1),
    "an": Fraction(1),
}
_DASHES = "-–—"
_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_NUMBER = re.compile(
    rf"(?P<mixed>\d+(?:\s+|-)\d+\s*/\s*\d+)|(?P<vulgar>\d*\s?[{_VULGAR}])|(?P<ratio>\d+\s*/\s*\d+)"
    r"|(?P<plain>\d+(?:\.\d+)?)|(?P<word>[a-z]+)\b",
    re.IGNORECASE,
)
_TO = re.compile(rf"\s*(?:[{_DASHES}]|to\b|or\b)\s*", re.IGNORECASE)
_HOW = 'write it like "2", "1 1/2", "½", "2-3" or "7 to 8"'

SIZED = ("small", "medium", "large")
"""Measures that say how large a thing is; big is another word for large."""

_SIZES = (*SIZED, "big")

_VAGUE = re.compile(r"\s*(?:a\s+)?(?:little|few|bit|some|enough|plenty|bunch)\b", re.IGNORECASE)
"""Words for an amount that is none."""

LEAST = Fraction(1, 16)
"""Nobody measures less of anything: a sixteenth of a small spoon is a pinch."""

MOST = Fraction(100_000)
"""Larger numbers in a home recipe are slips of the pen."""


def read_number(text: str) -> tuple[Fraction, str]:
    """The leading number of ``text`` and what follows it. Raises Unreadable."""
    text = text.lstrip().replace("\u2044", "/")
    match = _NUMBER.match(text)
    if not match:
        raise Unreadable(f'there is no number in "{_short(text)}"', _HOW)
    found, rest = match.group(0), text[match.end() :]
    try:
        if match["mixed"]:
            whole, part = re.split(r"[\s-]+", found, maxsplit=1)
            value = Fraction(int(whole)) + _ratio(part)
        elif match["vulgar"]:
            digits = found[:-1].strip()
            part_value = Fraction(unicodedata.numeric(found[-1])).limit_denominator(12)
            value = Fraction(int(digits or 0)) + part_value
        elif match["ratio"]:
            value = _ratio(found)
        elif match["plain"]:
            value = Fraction(found)
        else:
            value, rest = _word_number(found, rest)
    except Unreadable:
        raise
    except ZeroDivisionError:
        raise Unreadable(f'"{found}" divides by zero', _HOW) from None
    except ValueError:  # more digits than the interpreter reads
        raise Unreadable(f'"{_short(found)}" is far too long', _HOW) from None
    if value > MOST:
        raise Unreadable(f"{_short(found)} is far too much", _HOW)
    if re.match(r"\.\d|[\\/]", rest):
        raise Unreadable(f'"{_short(text)}" does not begin with a number that can be read', _HOW)
    if not match["word"]:
        rest = re.sub(r"^\s*x\s+", " ", rest)  # "2 x cups"
        half = re.match(r"\s+and\s+(?:a\s+)?(half|quarter)\b", rest, re.IGNORECASE)
        if half:
            return value + _WORDS[half[1].lower()], rest[half.end() :]
    return value, rest


def _ratio(text: str) -> Fraction:
    top, bottom = text.split("/")
    return Fraction(int(top), int(bottom))


def _word_number(word: str, rest: str) -> tuple[Fraction, str]:
    value = _WORDS.get(word.lower())
    if value is None:
        raise Unreadable(f'there is no number in "{_short(word + rest)}"', _HOW)
    # "half a lemon", "one and a half cups", "a quarter cup"
    follow = re.match(r"\s+and\s+(?:a\s+)?(half|quarter)\b", rest, re.IGNORECASE)
    if follow and value >= 1:
        return value + _WORDS[follow[1].lower()], rest[follow.end() :]
    if value < 1:
        return value, re.sub(r"^\s+(?:an?|of)\b(?:\s+an?\b)?", "", rest, flags=re.IGNORECASE)
    inner = re.match(r"\s+(half|quarter|third)\b", rest, re.IGNORECASE)
    if inner and word.lower() in ("a", "an", "one"):
        return _WORDS[inner[1].lower()], rest[inner.end() :]
    return value, rest


def read_range(text: str) -> tuple[Fraction, Fraction, str]:
    """A number or range at the head of ``text``, and the rest. Raises Unreadable."""
    low, rest = read_number(text)
    to = _TO.match(rest)
    if to:
        try:
            high, after = read_number(rest[to.end() :])
        except Unreadable:
            return low, low, rest.strip()
        if high < low:
            raise Unreadable(f'"{_short(text)}" runs backwards', "write the smaller number first")
        return low, high, after.strip()
    return low, low, rest.strip()


def read_amount(text: str, units: Mapping[str, str]) -> tuple[Amount, str]:
    """An amount at the head of ``text`` and the words after it.

    ``units`` maps every word for a measure (lower case) to its canonical
    name. A number with no measure after it counts whole things. Raises Unreadable.
    """
    vague = _VAGUE.match(text)
    if vague:
        raise Unreadable(
            f'"{vague[0].strip()}" is no amount', "write how much, like 1 tsp or 1 1/2 cups"
        )
    first = text.split(None, 1)
    if first and first[0].lower() in units:  # "pinch of salt" is one pinch
        text = f"1 {text}"
    low, high, rest = read_range(text)
    if low < LEAST:
        raise Unreadable(f'"{_short(text)}" is too little to measure', _HOW)
    words = rest.split()
    if words and words[0].lower() == "level":  # spoons are level anyway
        words = words[1:]
    sized = len(words) > 1 and words[0].lower() in _SIZES and words[1].lower() in units
    if sized and units[words[1].lower()] not in _SIZES:  # "1 small handful" is a handful
        words = words[1:]
    for take in (3, 2, 1):
        head = " ".join(words[:take]).lower().rstrip(".,")
        if len(words) >= take and head in units:
            after = words[take:]
            if after and after[0].lower() == "of":
                after = after[1:]
            return Amount(low, high, units[head]), " ".join(after)
    if words and words[0].lower() == "of":
        words = words[1:]
    return Amount(low, high, EACH), " ".join(words)


_TIME_UNITS = {
    "minute": 1,
    "minutes": 1,
    "min": 1,
    "mins": 1,
    "hour": 60,
    "hours": 60,
    "h": 60,
    "day": 1440,
    "days": 1440,
}
LONGEST_TIME = 14 * 24 * 60
"""Two weeks in minutes: longer than any home ferments for a child."""

OVERNIGHT = Duration(Fraction(8 * 60), Fraction(12 * 60), overnight=True)
"""Eight to twelve hours (common practice)."""


def read_duration(text: str) -> Duration:
    """A time such as "10 minutes", "10-12 min", "half an hour", "overnight". Raises Unreadable."""
    how = 'write it like "10 minutes", "10-12 minutes", "8 hours", "2 days" or "overnight"'
    if text.strip().lower() == "overnight":
        return OVERNIGHT
    low, high, rest = read_range(text)
    factor = _TIME_UNITS.get(rest.lower().rstrip("."))
    if factor is None:
        word = rest or "no unit"
        raise Unreadable(f'"{_short(text)}" is not a time ({_short(word)})', how, "time-unreadable")
    if not Fraction(1, 4) <= low * factor or high * factor > LONGEST_TIME:
        raise Unreadable(
            f'"{_short(text)}" cannot be how long a step takes', how, "time-unreadable"
        )
    return Duration(low * factor, high * factor)


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "..."
