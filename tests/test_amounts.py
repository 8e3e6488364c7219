"""Amounts as people write them."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cards.source.amounts import (
    EACH,
    Unreadable,
    read_amount,
    read_duration,
    read_number,
    read_range,
)
from cards.source.vocabulary import vocabulary

UNITS = vocabulary().measures


@pytest.mark.parametrize(
    ("text", "low", "high", "unit", "rest"),
    [
        ("1 1/2 tbsp", F(3, 2), F(3, 2), "tablespoon", ""),
        ("½ tsp", F(1, 2), F(1, 2), "teaspoon", ""),
        ("1½ cups", F(3, 2), F(3, 2), "cup", ""),
        ("1 ½ cups", F(3, 2), F(3, 2), "cup", ""),
        ("2-3", F(2), F(3), EACH, ""),
        ("2–3 eggs", F(2), F(3), EACH, "eggs"),
        ("7 to 8 leaves", F(7), F(8), "leaf", ""),
        ("half a lemon", F(1, 2), F(1, 2), EACH, "lemon"),
        ("half lemon", F(1, 2), F(1, 2), EACH, "lemon"),
        ("one and a half cups milk", F(3, 2), F(3, 2), "cup", "milk"),
        ("a pinch of turmeric", F(1), F(1), "pinch", "turmeric"),
        ("a quarter cup rice", F(1, 4), F(1, 4), "cup", "rice"),
        ("2 big spoons rice", F(2), F(2), "tablespoon", "rice"),
        ("0.5 cup", F(1, 2), F(1, 2), "cup", ""),
        ("⅔ cup", F(2, 3), F(2, 3), "cup", ""),
        ("3 medium potatoes", F(3), F(3), "medium", "potatoes"),
        ("60 g", F(60), F(60), "gram", ""),
        ("1/2-3/4 cup", F(1, 2), F(3, 4), "cup", ""),
    ],
)
def test_amounts_are_read_exactly(text: str, low: F, high: F, unit: str, rest: str) -> None:
    amount, after = read_amount(text, UNITS)
    assert (amount.low, amount.high, amount.unit, after) == (low, high, unit, rest)


@pytest.mark.parametrize(
    "text", ["", "some rice", "1/0 cup", "-", "3-2 cups", "9999999 g", "0 cups"]
)
def test_what_is_no_amount_is_refused_with_a_hint(text: str) -> None:
    with pytest.raises(Unreadable) as caught:
        read_amount(text, UNITS)
    assert caught.value.hint


@given(st.integers(0, 50), st.integers(1, 11), st.integers(2, 12))
def test_mixed_numbers_come_back_as_the_fraction(whole: int, top: int, bottom: int) -> None:
    text = f"{whole} {top}/{bottom}"
    assert read_number(text) == (whole + F(top, bottom), "")


@given(st.text(max_size=40))
def test_no_text_breaks_the_reader(text: str) -> None:
    for read in (read_number, read_range, read_duration):
        try:
            read(text)
        except Unreadable as trouble:
            assert str(trouble)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10 minutes", 10, 10),
        ("10-12 min", 10, 12),
        ("half an hour", 30, 30),
        ("8 hours", 480, 480),
        ("2 days", 2880, 2880),
        ("1 1/2 hours", 90, 90),
        ("overnight", 480, 720),
    ],
)
def test_times(text: str, low: int, high: int) -> None:
    time = read_duration(text)
    assert (time.low, time.high) == (low, high)
    assert time.overnight == (text == "overnight")


@pytest.mark.parametrize("text", ["soon", "10", "3 whistles", "0 minutes"])
def test_what_is_no_time(text: str) -> None:
    with pytest.raises(Unreadable):
        read_duration(text)


@pytest.mark.parametrize(
    ("text", "number", "rest"),
    [
        ("1-1/2 cups rice", "3/2", "rice"),
        ("1 and a half cups rice", "3/2", "rice"),
        ("one third cup rice", "1/3", "rice"),
        ("2 x cups rice", "2", "rice"),
        ("eight tablespoons rice", "8", "rice"),
    ],
)
def test_numbers_as_people_say_them(text: str, number: str, rest: str) -> None:
    amount, food = read_amount(text, vocabulary().measures)
    assert (str(amount.low), food) == (number, rest)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("ghee 1 tsp", "no number"),
        ("1.5.2 cups rice", "cannot|can be read"),
        ("1\\3 cup rice", "can be read"),
        ("a little ghee", "no amount"),
        ("some ghee", "no amount"),
        ("9" * 5000, "far too long"),
    ],
)
def test_what_is_wrong_is_named(text: str, word: str) -> None:
    with pytest.raises(Unreadable, match=word):
        read_amount(text, vocabulary().measures)
