"""Two dishes as they were first told: all that is wrong in them, line by line."""

from __future__ import annotations

from pathlib import Path

import pytest

from cards.diagnostics.diagnostic import Severity
from tests.conftest import Bench

FOLDER = Path(__file__).parent / "badly"

TOLD = {
    "roasted-grain-porridge": [
        (2, "texture-for-age"),
        (7, "makes-less-than-promised"),
        (8, "ready-too-soon"),
        (9, "kept-too-long"),
        (13, "whole-nuts"),
        (14, "added-sugar"),
        (16, "grams-alone"),
        (16, "left-over"),
        (17, "ingredient-unused"),
        (19, "numbers-differ"),
        (19, "two-actions"),
        (24, "sentence-long"),
        (24, "word-hard"),
        (24, "word-hard"),
        (24, "word-hard"),
        (32, "honey-in-disguise"),
        (32, "bottle"),
        (32, "word-not-listed"),
    ],
    "river-fish": [
        (2, "much-sodium"),
        (2, "sodium-of-day"),
        (7, "bones"),
        (7, "flesh-hardly-heated"),
        (10, "chilli"),
        (11, "spices-taken-out"),
        (12, "added-salt"),
        (19, "cooker-opened-hot"),
        (27, "stands-too-long"),
    ],
}


@pytest.mark.parametrize("name", TOLD)
def test_a_badly_written_dish(bench: Bench, name: str) -> None:
    found = bench.said((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))
    told = [(d.place.line, d.kind) for d in found if d.severity <= Severity.WARNING]
    assert told == TOLD[name]


@pytest.mark.parametrize("name", TOLD)
def test_it_makes_no_card(bench: Bench, name: str) -> None:
    assert bench.run((FOLDER / f"{name}.yaml").read_text(encoding="utf-8")).stopped
