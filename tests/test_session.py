"""The session file: what it says, and one message with line and cure for each slip."""

from __future__ import annotations

import json
from datetime import datetime
from decimal import Decimal

import pytest

from cards.diagnostics.diagnostic import Diagnostic
from cards.source.programme import Programme
from cards.source.schema import session_schema
from cards.source.session import Session, read_session
from cards.source.workspace import open_workspace
from tests.conftest import ROOT

SESSION = """\
session: 1
title: {en: Day of cooking, hi: पकाने का दिन}
date: 2026-11-26
starts: 10:00
trainees: 12
groups: 3
recipes:
  - plain
villages:
  - village: {en: Amrai, hi: अमराई}
    languages: [en, hi]
    copies: 3
  - village: {en: Belbari, hi: बेलबाड़ी}
    languages: [hi]
    copies: 1
spare: 2
charts:
  - chart: feeding
    size: a2
    print: tiled
price: 1.50 INR
market:
  spinach: bunch of 250 g
"""
"""A sound session to spoil in one place at a time."""


def session_of(text: str = SESSION) -> Session:
    read = read_session(text, "recipes/sessions/day.yaml", Programme())
    assert read.value is not None, read.diagnostics
    return read.value


def said(text: str) -> tuple[Diagnostic, ...]:
    return read_session(text, "recipes/sessions/day.yaml", Programme()).diagnostics


def test_a_session_says_what_is_needed() -> None:
    session = session_of()
    assert session.id == "day"
    assert session.starts == datetime(2026, 11, 26, 10, 0)
    assert (session.trainees, session.groups, session.children, session.spare) == (12, 3, 0, 2)
    assert [(v.languages, v.copies, v.at.line) for v in session.villages] == [
        (("en", "hi"), 3, 10),
        (("hi",), 1, 13),
    ]
    chart = session.charts[0]
    assert (chart.of, chart.size, chart.whole, chart.tiled) == ("feeding", "a2", False, True)
    assert session.price is not None
    assert (session.price.amount, session.price.currency) == (Decimal("1.50"), "INR")
    sale = session.market["spinach"]
    assert (sale.pack, sale.grams, sale.ml) == ("bunch", 250, 0)


@pytest.mark.parametrize(
    ("old", "new", "kind", "line", "hint"),
    [
        ("date: 2026-11-26", "date: 2026-13-26", "value-wrong", 3, "2026-11-26"),
        ("date: 2026-11-26", "date: Thursday", "value-wrong", 3, "2026-11-26"),
        ("date: 2026-11-26", "date: 1026-11-26", "value-wrong", 3, "2026-11-26"),
        ("starts: 10:00", "starts: 25:00", "value-wrong", 4, "0 to 23"),
        ("starts: 10:00", "starts: 10:75", "value-wrong", 4, "0 to 23"),
        ("trainees: 12", "trainees: 0", "value-wrong", 5, "1 or more"),
        ("groups: 3", "groups: 0", "value-wrong", 6, "1 to 50"),
        ("groups: 3", "groups: 13", "value-wrong", 6, "several trainees"),
        ("groups: 3", "groups: three", "value-wrong", 6, "whole number"),
        ("copies: 3", "copies: 100000", "value-wrong", 12, "1000 at most"),
        ("copies: 3", "copies: -3", "value-wrong", 12, "1000 at most"),
        ("spare: 2", "spare: 2.5", "value-wrong", 16, "whole number"),
        ("spare: 2", "spares: 2", "key-unknown", 16, '"spare"'),
        ("    copies: 3", "    copies: 3\n    cards: 4", "key-unknown", 13, "copies"),
        ("[en, hi]", "[English]", "language-unknown", 11, "write en"),
        ("[en, hi]", "[]", "value-wrong", 11, "add one"),
        ("  - plain", "  - plain\n  - plain", "value-wrong", 9, "once"),
        ("size: a2", "size: a3", "value-wrong", 19, "a2 or a1"),
        ("size: a2", "size: a9", "value-wrong", 19, "choose from: a1, a2, a3"),
        ("print: tiled", "print: tilde", "value-wrong", 20, "tiled"),
        ("price: 1.50 INR", "price: 1.50", "value-wrong", 21, "1.50 INR"),
        ("price: 1.50 INR", "price: 0 INR", "value-wrong", 21, "1.50 INR"),
        ("bunch of 250 g", "heap of 250 g", "value-wrong", 23, "bunch"),
        ("bunch of 250 g", "bunch of 2 cups", "value-wrong", 23, "bunch of 250 g"),
        ("session: 1", "session: 2", "format-unknown", 1, "session: 1"),
        (", hi: पकाने का दिन", "", "language-missing", 2, "each language"),
        ("date: 2026-11-26\n", "", "key-missing", 1, "date"),
        (
            "price:",
            "  - chart: feeding\n    size: a2\nprice:",
            "value-wrong",
            21,
            "print: both",
        ),
    ],
)
def test_one_slip_one_message(old: str, new: str, kind: str, line: int, hint: str) -> None:
    assert SESSION.count(old) == 1
    (told,) = said(SESSION.replace(old, new))
    assert (told.kind, told.place.line) == (kind, line), told
    assert hint in told.hint


def test_a_session_is_no_recipe() -> None:
    files = open_workspace(ROOT).recipe_files()
    assert (ROOT / "recipes" / "sessions" / "two-wells-thursday.yaml").is_file()
    assert not [path for path in files if "sessions" in path.parts]


def test_the_schema_knows_every_key() -> None:
    schema = json.loads(session_schema())
    written = {line.split(":")[0] for line in SESSION.splitlines() if line[0].isalpha()}
    assert written <= set(schema["properties"])
    assert schema["additionalProperties"] is False
    assert schema["$defs"]["ChartIn"]["properties"]["print"]["enum"] == ["whole", "tiled", "both"]
