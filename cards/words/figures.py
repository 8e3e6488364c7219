"""Numbers, times and whistles that a text tells, in any script and in number words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from cards.source.amounts import OVERNIGHT, Duration
from cards.words.tokens import Token, longest, tokens
from cards.words.wordlists import WordLists

_DASHES = "-–—"


@dataclass(frozen=True, slots=True)
class Told:
    """A time in minutes, or a count of whistles, as a text tells it.

    ``spoken`` is True where no digit stands in it, as in "half an hour".
    """

    low: Fraction
    high: Fraction
    text: str
    spoken: bool
    overnight: bool = False

    def agrees(self, low: Fraction, high: Fraction, overnight: bool = False) -> bool:
        """Whether this is the same time; a night is any time of 8 to 12 hours."""
        if self.overnight or overnight:
            return (self.overnight or _in_a_night(self.low, self.high)) and (
                overnight or _in_a_night(low, high)
            )
        return (self.low, self.high) == (low, high)


@dataclass(slots=True)
class Figures:
    """All figures of a text; ``digits`` are those that belong to no time and no whistles."""

    times: list[Told] = field(default_factory=list)
    whistles: list[Told] = field(default_factory=list)
    digits: Counter[Fraction] = field(default_factory=Counter)
    spoken: Counter[Fraction] = field(default_factory=Counter)
    """Number words by value; many of them are no numbers in their place, such as "a"."""
    each: bool = False
    """True where the text says "each side" or the like, so that a time counts several times."""


@dataclass(frozen=True, slots=True)
class _Number:
    value: Fraction
    end: int
    spoken: bool


def figures(text: str, lists: WordLists) -> Figures:
    """The figures of a text."""
    return _Reader(tokens(text), lists).read()


class _Reader:
    def __init__(self, row: Sequence[Token], lists: WordLists) -> None:
        self.row, self.lists = row, lists
        self.folded = [t.folded for t in row]
        self.found = Figures(each=not lists.each.isdisjoint(self.folded))

    def read(self) -> Figures:
        at = 0
        while at < len(self.row):
            at = self._night(at) or self._figure(at) or at + 1
        return self.found

    def _night(self, at: int) -> int | None:
        night = longest(self.folded, at, self.lists.overnight)
        if not night:
            return None
        end = at + night[0]
        self.found.times.append(
            Told(OVERNIGHT.low, OVERNIGHT.high, self._text(at, end), True, overnight=True)
        )
        return end

    def _figure(self, at: int) -> int | None:
        """Take a number or range with what it counts; the place after it."""
        parts = self._range(at)
        if not parts:
            return None
        end = parts[-1].end
        low, high = parts[0].value, parts[-1].value
        spoken = all(part.spoken for part in parts)
        unit = end
        if self._word(unit) in self.lists.between or self._is_dash(unit):
            unit += 1
        size = self.lists.time_units.get(self._word(unit))
        if size is not None:
            end, most = self._longer(unit + 1, size)
            told = Told(low * size, most or high * size, self._text(at, end), spoken)
            self.found.times.append(told)
            return end
        if self._word(unit) in self.lists.whistles:
            self.found.whistles.append(Told(low, high, self._text(at, unit + 1), spoken))
            return unit + 1
        for part in parts:
            (self.found.spoken if part.spoken else self.found.digits)[part.value] += 1
        return end

    def _range(self, at: int) -> list[_Number]:
        """One number, or two of a range; none where no number begins."""
        first = self._number(at)
        if first is None:
            return []
        if self._is_dash(first.end) or self._word(first.end) in self.lists.to:
            second = self._number(first.end + 1)
            if second and second.value > first.value:
                return [first, second]
        return [first]

    def _longer(self, at: int, size: Fraction) -> tuple[int, Fraction | None]:
        """The far end of a range whose near end has its unit: "30 minutes to 1 hour"."""
        if self._is_dash(at) or self._word(at) in self.lists.to:
            far = self._number(at + 1)
            if far and self._word(far.end) not in self.lists.whistles:
                own = self.lists.time_units.get(self._word(far.end))
                return far.end + (own is not None), far.value * (own or size)
        return at, None

    def _number(self, at: int) -> _Number | None:
        if at >= len(self.row):
            return None
        if self._word(at) in self.lists.and_half:
            whole = self._number(at + 1)
            half = Fraction(1, 2)
            return _Number(whole.value + half, whole.end, whole.spoken) if whole else None
        value = self.row[at].value
        if value is not None:
            return _Number(value, at + 1, spoken=False)
        words = longest(self.folded, at, self.lists.numbers)
        return _Number(words[1], at + words[0], spoken=True) if words else None

    def _word(self, at: int) -> str:
        return self.folded[at] if at < len(self.row) else ""

    def _is_dash(self, at: int) -> bool:
        return at < len(self.row) and self.row[at].text in _DASHES

    def _text(self, start: int, end: int) -> str:
        """The words from one place to another, as they are written but for blanks."""
        text = " ".join(t.text for t in self.row[start:end])
        for dash in _DASHES:
            text = text.replace(f" {dash} ", dash)
        return text


def _in_a_night(low: Fraction, high: Fraction) -> bool:
    return OVERNIGHT.low <= low and high <= OVERNIGHT.high


def differing(one: Sequence[Told], other: Sequence[Told]) -> tuple[list[Told], list[Told]]:
    """What either side tells and the other does not."""
    left, right = list(one), list(other)
    for told in one:
        same = next((o for o in right if told.agrees(o.low, o.high, o.overnight)), None)
        if same is not None:
            left.remove(told)
            right.remove(same)
    return left, right


def bears_out(found: Figures, time: Duration) -> bool:
    """Whether the times of a text go with a step's time: each of them, their sum, or each side."""
    times = found.times
    if all(t.agrees(time.low, time.high, time.overnight) for t in times):
        return True
    low, high = sum(t.low for t in times), sum(t.high for t in times)
    if (low, high) == (time.low, time.high):
        return True
    if not found.each or not low or not high:
        return False
    turns = time.low / low
    return turns == time.high / high and turns.denominator == 1 and turns > 1
