"""Inputs that once broke the program or slipped through: each now has one clear answer."""

from __future__ import annotations

import time

import pytest

from cards.batch.kit import open_kit
from cards.source.programme import read_programme
from cards.source.workspace import open_workspace
from tests.conftest import PLAIN, Bench

RICE = "  - 6 tbsp rice\n"
TITLE = "title: {en: Soft rice, hi: नरम चावल}"

CASES = [
    # everything optional, water alone
    (
        f"{RICE}  - 3 tbsp moong dal\n  - 2 cups water\n  - 1 tbsp ghee",
        "  - {food: rice, amount: 1 cup, optional: yes}",
        "no-food",
    ),
    # counts and lengths that would never end
    ("makes: 2 cups (500 g)", "makes: 100001 pieces", "amount-unreadable"),
    ("makes: 2 cups (500 g)", "makes: 10000 pieces", "value-wrong"),
    (TITLE, "title: {en: " + "Rice " * 1000 + ", hi: x}", "value-wrong"),
    (RICE, RICE * 500, "value-wrong"),
    # marks and hidden characters
    (TITLE, 'title: {en: "*", hi: नरम}', "text-hidden"),
    (TITLE, 'title: {en: "\\u200b", hi: नरम}', "text-hidden"),
    (TITLE, 'title: {en: "\\u202eecir", hi: नरम}', "text-hidden"),
    (TITLE, 'title: {en: "!!", hi: नरम}', "value-missing"),
    # keys that are the program's own
    (RICE, "  - {food: rice, amount: 6 tbsp, words: x, en: b}\n", "key-unknown"),
    (RICE, "  - {food: rice, amount: 6 tbsp, as_needed: yes}\n", "key-unknown"),
    # empty is empty, whichever YAML reader is at work
    (TITLE, "title: {en: ~, hi: नरम}", "value-missing"),
    ("    flame: low", "    flame:", "value-missing"),
    ("ages: 6-23 months", "ages: 6-23 months\nrevised: 2026-13-45", "value-wrong"),
    ("ages: 6-23 months", "ages: 6-23 months\nversion: " + "9" * 200, "value-wrong"),
    # numbers nobody measures
    (RICE, "  - 0.0001 g rice\n", "amount-unreadable"),
    (RICE, "  - 1,5 cups rice\n", "amount-unreadable"),
    (RICE, "  - " + "9" * 300 + " g rice\n", "amount-unreadable"),
    (RICE, "  - " + "9" * 5000 + " g rice\n", "value-wrong"),
    ("    time: 20 minutes", "    time: 100000 days", "time-unreadable"),
    ("    time: 20 minutes", "    whistles: 3", "whistles-without-cooker"),
    ("    flame: low", "    size: 0 mm", "value-wrong"),
    # lists for texts
    ("    flame: low", "    flame: [low]", "value-wrong"),
    (RICE, "  - {food: [rice], amount: 1 cup}\n", "value-wrong"),
    # one slip, one message
    (RICE, "  - rice: 6 tbsp\n", "key-unknown"),
    ("  - do: mash\n    use: all", "  - mash: all", "key-unknown"),
]


@pytest.mark.parametrize(("old", "new", "kind"), CASES, ids=range(len(CASES)))
def test_one_answer(bench: Bench, old: str, new: str, kind: str) -> None:
    assert PLAIN.count(old) == 1, old
    started = time.perf_counter()
    errors = [d for d in bench.said(PLAIN.replace(old, new)) if d.severity == 0]
    assert [d.kind for d in errors] == [kind]
    assert errors[0].hint or kind == "text-hidden"
    assert time.perf_counter() - started < 10  # a hang, not a speed


@pytest.mark.parametrize("makes", ["40 pieces (500 g)", "200 pieces (500 g)", "3 pieces (500 g)"])
def test_any_number_of_pieces_is_placed(bench: Bench, makes: str) -> None:
    run = bench.run(PLAIN.replace("2 cups (500 g)", makes))
    assert not run.stopped, run.diagnostics


@pytest.mark.parametrize("amount", ["1.37 cups", "2/3 cup", "5 to 7 tbsp", "10 tsp", "1/3 cup"])
def test_any_amount_is_placed(bench: Bench, amount: str) -> None:
    run = bench.run(PLAIN.replace("6 tbsp rice", f"{amount} rice"))
    assert not run.stopped, run.diagnostics


def test_marks_of_every_kind_in_one_row(bench: Bench) -> None:
    """A time beside whistles keeps its size."""
    steps = (
        "  - {do: pressure-cook, use: all, whistles: 5, time: 20 minutes, flame: high, lid: on}\n"
    )
    run = bench.run(PLAIN + steps)
    assert not run.stopped, run.diagnostics


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("link: https://a.example/" + "x" * 5000, "link-wrong"),
        ("link: 'http://[::1'", "link-wrong"),
        ("link: https://:99999999/", "link-wrong"),
        ("languages: [../layouts/hand-card]", "language-unknown"),
        ("languages: [" + "a" * 300 + "]", "language-unknown"),
        ("layout: ../words/en", "layout-unknown"),
        ("measures: {gram: 5 ml}", "value-wrong"),
        ("measures: {cup: 0.0001 ml}", "amount-unreadable"),
        ("measures: {cup: 100000 l}", "value-wrong"),
        ("languages: []", "value-wrong"),
        ("languages: [en, hi, mr]", "value-wrong"),
    ],
)
def test_programmes(line: str, kind: str) -> None:
    result = read_programme(f"programme: 1\nname: Us\n{line}\n", "programme.yaml")
    assert [d.kind for d in result.diagnostics] == [kind]


def test_a_measure_by_any_of_its_words() -> None:
    programme = read_programme("programme: 1\nname: Us\nmeasures: {tbsp: 12 ml}\n", "p.yaml").value
    assert programme is not None
    assert programme.measures_ml == {"tablespoon": 12.0}


FONTS = {
    "families: {a: {package: no.such, regular: x, bold: y}}\nscripts: {}": "not installed",
    "families: {a: {regular: x.ttf, bold: y.ttf}}\nscripts: {}": "x.ttf is not there",
    "families: {a: {regular: junk, bold: junk}}\nscripts: {}": "no TrueType font",
    "families: {}\nscripts: {}": "no script",
    "families: {}\nscripts: {Latn: {families: [b], leading: 1.2, ascent: 0.8}}": "not listed",
    "families: {}\nscripts: {Latn: {families: [], leading: abc, ascent: 0.8}}": "abc",
}


@pytest.mark.parametrize("listing", FONTS)
def test_font_lists(listing: str, tmp_path: object) -> None:
    from pathlib import Path

    root = Path(str(tmp_path))
    (root / "fonts").mkdir()
    (root / "fonts" / "junk").write_bytes(b"not a font")
    (root / "fonts" / "fonts.yaml").write_text(listing, encoding="utf-8")
    result = open_kit(open_workspace(root))
    assert [d.kind for d in result.diagnostics] == ["font-list"]
    assert FONTS[listing] in result.diagnostics[0].message


def test_hidden_characters_are_shown_by_number(bench: Bench) -> None:
    from cards.diagnostics.render import as_text

    told = bench.said(PLAIN.replace(TITLE, 'title: {en: "a\\u202eb", hi: नरम}'))[0]
    text = as_text(told, {})
    assert "\u202e" not in text
