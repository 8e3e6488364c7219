"""Places, diagnostics and the result every stage returns."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from enum import IntEnum
from itertools import islice
from typing import Generic, TypeVar

T = TypeVar("T")


class Severity(IntEnum):
    """How much a diagnostic matters. An error stops the card it belongs to."""

    ERROR = 0
    WARNING = 1
    NOTE = 2

    @property
    def word(self) -> str:
        """The word printed for it."""
        return self.name.lower()


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a file; line and column count from 1, 0 means the file as a whole."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        if not self.line:
            return self.file
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One message for a person: where, what kind, what is wrong, how to mend it."""

    place: Place
    kind: str
    severity: Severity
    message: str
    hint: str = ""
    source: str = ""
    """Published document a rule rests on, with how it is known; empty for plain mistakes."""


LONGEST = 600
"""Characters of a message or a cure; what is longer quotes a text that nobody wants told whole."""

MOST = 60
"""Faults of one file told at once: more than anybody mends before checking again."""


def error(place: Place, kind: str, message: str, hint: str = "") -> Diagnostic:
    """A diagnostic that stops the card."""
    return _told(place, kind, Severity.ERROR, message, hint)


def warning(place: Place, kind: str, message: str, hint: str = "") -> Diagnostic:
    """A diagnostic the trainer should read; the card is still made."""
    return _told(place, kind, Severity.WARNING, message, hint)


def note(place: Place, kind: str, message: str, hint: str = "") -> Diagnostic:
    """Something worth knowing, such as an assumption taken."""
    return _told(place, kind, Severity.NOTE, message, hint)


def _told(place: Place, kind: str, severity: Severity, message: str, hint: str) -> Diagnostic:
    return Diagnostic(place, kind, severity, _short(message), _short(hint))


def _short(text: str) -> str:
    return text if len(text) <= LONGEST else text[: LONGEST - 3] + "..."


def first_of(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The first faults of a file, and one more that says so where there are too many to tell."""
    told = list(islice(found, MOST + 1))
    if len(told) > MOST:
        more = warning(
            told[MOST].place,
            "faults-many",
            "more is wrong from here on than is told at once",
            "mend what is told, then check again",
        )
        told[MOST:] = [replace(more, severity=min(d.severity for d in told))]
    return tuple(told)


@dataclass(frozen=True, slots=True)
class Result(Generic[T]):
    """A stage's value with its diagnostics; a value of None leaves nothing to go on with."""

    value: T | None
    diagnostics: tuple[Diagnostic, ...] = field(default=())

    @property
    def failed(self) -> bool:
        """True when an error stands among the diagnostics or there is no value."""
        return self.value is None or has_errors(self.diagnostics)


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    """True when at least one diagnostic is an error."""
    return any(d.severity is Severity.ERROR for d in diagnostics)


def in_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The diagnostics by place, then severity; exact repeats are dropped."""
    return tuple(
        sorted(dict.fromkeys(diagnostics), key=lambda d: (d.place, d.severity, d.kind, d.message))
    )
