"""Values as a PDF writes them, read back by pypdf."""

from __future__ import annotations

import io
from typing import Any

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf.generic import read_object

from cards.pdf.code import array, dictionary, name, num, string
from cards.pdf.document import PACKED, Document

WORDS = st.text(st.characters(exclude_categories=["Cs", "Cc"]) | st.sampled_from("\n()\\/#%<>"))


def read(code: str) -> Any:
    return read_object(io.BytesIO(code.encode("latin-1") + b" "), None)  # type: ignore[arg-type]


@given(WORDS)
def test_words_come_back(text: str) -> None:
    assert read(string(text)) == text


@pytest.mark.parametrize(
    "text", ["", "½ cup (125 ml)", "पका पपीता", "a\\b", "café – 2–3", "þÿ", "ï»¿", "€"]
)
def test_chosen_words_come_back(text: str) -> None:
    assert read(string(text)) == text


def test_words_of_latin_letters_take_a_byte_each() -> None:
    assert len(string("½ cup")) == 7
    assert len(string("कप")) == 2 + 2 + 2 * 2  # brackets, byte order mark, two letters


@given(st.text(st.characters(min_codepoint=1, max_codepoint=126)))
def test_names_come_back(text: str) -> None:
    assert read(name(text)) == f"/{text}"


@given(st.floats(-1e6, 1e6))
def test_numbers_come_back(value: float) -> None:
    code = num(value)
    assert "e" not in code
    assert float(code) == pytest.approx(value, abs=0.0005001)


def test_values_stand_in_one_another() -> None:
    code = dictionary(
        {"A": array([1, 2.5, "true", string("x")]), "B": dictionary({"C": name("D")})}
    )
    assert read(code) == {"/A": [1, 2.5, True, "x"], "/B": {"/C": "/D"}}


@pytest.mark.parametrize("count", [1, PACKED - 3, PACKED, 3 * PACKED + 1])
def test_every_object_is_found(count: int) -> None:
    """Object streams that are full, just full and not full; references given before objects."""
    document = Document()
    early = document.reserve()
    held = [document.put(dictionary({"N": number})) for number in range(count)]
    stream = document.stream(b"words " * 50)
    document.put(array(held), early)
    kids = document.put(dictionary({"Type": name("Pages"), "Kids": "[]", "Count": 0}))
    catalog = dictionary({"Type": name("Catalog"), "Pages": kids, "All": early, "Held": stream})
    data = document.written(catalog, dictionary({"Title": string("t")}))
    root = pypdf.PdfReader(io.BytesIO(data), strict=True).root_object
    assert [one.get_object()["/N"] for one in root["/All"]] == list(range(count))
    assert root["/Held"].get_data() == b"words " * 50
