"""What an author says of a dish is held against the sums."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cards.nutrition.statements import read_statement
from tests.conftest import PLAIN, Bench


def said(bench: Bench, statement: str, criterion: str = "desired-density") -> list[str]:
    kit = replace(bench.kit, programme=replace(bench.kit.programme, claims=criterion))
    text = PLAIN + f"statements:\n  - {statement}\n"
    return [d.kind for d in Bench(kit).said(text)]


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("rich in iron", ("rich", "FE")),
        ("Good source of protein", ("source", "PROCNT")),
        ("source of vitamin A", ("source", "VITA_RE")),
        ("high in vitamin C", ("rich", "VITC")),
        ("rich in goodness", ("rich", "")),
        ("very tasty", ("", "")),
    ],
)
def test_reading(text: str, read: tuple[str, str]) -> None:
    assert read_statement(text) == read


def test_supported_refused_unreadable_and_unknown(bench: Bench) -> None:
    assert said(bench, "rich in protein") == []
    assert said(bench, "rich in iron") == ["statement-unsupported"]
    assert said(bench, "rich in goodness") == ["statement-unreadable"]
    assert said(bench, "rich in vitamin D") == ["statement-unknown"]


def test_the_refusal_gives_the_figure(bench: Bench) -> None:
    text = PLAIN + "statements:\n  - rich in iron\n"
    told = bench.said(text)[0]
    assert told.place.line == PLAIN.count("\n") + 2
    assert "of 4.5 mg" in told.message  # Dewey and Brown (2003), 6-8 months
    assert "Dewey and Brown" in told.message


def test_codex_conditions(bench: Bench) -> None:
    """CXG 23: iron 5 % of 14 mg per 100 kcal (0.7 mg); protein 5 % of 50 g (2.5 g)."""
    run = bench.run(PLAIN)
    assert run.analysis is not None
    iron, protein = (run.analysis.per_100_kcal(tag) for tag in ("FE", "PROCNT"))
    assert iron is not None
    assert protein is not None
    assert iron < 0.7
    assert 2.5 < protein < 5
    assert said(bench, "source of iron", "codex-cxg-23") == ["statement-unsupported"]
    assert said(bench, "source of protein", "codex-cxg-23") == []
    assert said(bench, "rich in protein", "codex-cxg-23") == ["statement-unsupported"]
