"""Files of the right keys with values nobody meant: always an answer, with a place in the file."""

from __future__ import annotations

import copy
import csv
import io
import json
from collections.abc import Callable, Iterator
from itertools import product
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cards.diagnostics.diagnostic import Result
from cards.foods.own import own_table
from cards.foods.table import shipped_table
from cards.layout.layoutfile import load_layout
from cards.nutrition.own_needs import read_needs
from cards.source.programme import Programme, read_programme
from cards.source.read import read
from cards.source.sides import read_side
from cards.words.phrases import template, template_fault
from tests.answers import owed
from tests.conftest import PLAIN, ROOT, Bench

SEEDS = ROOT / "tests" / "seeds"


def tree_of(name: str) -> Any:
    """A sound file as plain values, all scalars as text."""
    return yaml.load((ROOT / name).read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


RECIPES = [tree_of("tests/seeds/recipe-everything.yaml"), tree_of("tests/seeds/recipe-parts.yaml")]

ODD = st.characters(categories=["Cc", "Cf", "Mn", "Mc", "So", "Zl", "Zs", "Nd", "No", "Lo"])
ANY = st.text(alphabet=st.one_of(ODD, st.characters()), max_size=12)
FORMS = (
    "rice|ghee|water|all|half of the ghee|the rest of the rice|1/2 tsp ghee|6 tbsp rice, washed|"
    "2-3 eggs|1 handful spinach|½ cup moong dal|0|-1|1/0|1e9|99999|1.5 kg|10 minutes|overnight|"
    "2 days|soft|low|yes|no|kept|thrown|pea|5 mm|winter|mash|serve|pressure-cook|from 9 months|"
    "12 pieces (480 g)|2 cups, 4 portions|1 day in the fridge|rich in iron|all, all|or|, ,|(|to|"
    "1 tbsp (1 tbsp) ghee|as needed|water, as needed|salt to taste|6-8|~||null|*|{{ food }}"
)
FAMILIAR = st.sampled_from(FORMS.split("|"))
GLUED = st.tuples(FAMILIAR, ANY, FAMILIAR).map("".join)
LONG = st.sampled_from(["9" * 500, "a " * 500, "क्ष" * 200, " " * 500 + "x", "x\u0301" * 300])
TEXTS = st.one_of(FAMILIAR, GLUED, ANY, LONG)
NAMES = (
    "food amount grams prep optional or seasons en hi bn winter do use time flame whistles lid "
    "until size water part parts ingredients steps title makes ready keep texture <<"
)
KEYS = st.sampled_from(NAMES.split())
VALUES = st.recursive(
    st.one_of(TEXTS, st.none(), st.integers(), st.booleans()),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.one_of(KEYS, ANY), inner, max_size=4)
    ),
    max_leaves=8,
)


def spots(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of every value below the top."""
    if path:
        yield path
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from spots(inner, (*path, key))


@st.composite
def spoilt(draw: st.DrawFn, sound: Any) -> str:
    """A sound file with one to three of its values changed, taken out, doubled or put elsewhere."""
    tree = copy.deepcopy(sound)
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(list(spots(tree))))
        holder = tree
        for key in path[:-1]:
            holder = holder[key]
        change = draw(st.integers(0, 4))
        if change == 0 and len(tree) > 1:
            del holder[path[-1]]
        elif change == 1 and isinstance(holder, list):
            holder.insert(path[-1], copy.deepcopy(holder[path[-1]]))
        elif change == 2 and isinstance(holder, dict):
            holder[draw(KEYS)] = draw(VALUES)
        else:
            holder[path[-1]] = draw(VALUES)
    return json.dumps(tree, ensure_ascii=False)  # JSON is YAML; every oddity survives in it


@pytest.mark.parametrize("number", range(len(RECIPES)))
@given(data=st.data())
@settings(max_examples=60, deadline=5000, suppress_health_check=list(HealthCheck))
def test_a_recipe_is_placed_or_refused(bench: Bench, number: int, data: st.DataObject) -> None:
    text = data.draw(spoilt(RECIPES[number]))
    run = bench.run(text)
    assert run.stopped or run.pages is not None
    assert run.pages is not None or run.diagnostics
    texts = {"recipes/x.yaml": text, **bench.kit.sources, "programme.yaml": ""}
    assert owed(run.diagnostics, texts) == []


READERS: dict[str, tuple[Any, Callable[[str], Result[Any]]]] = {
    "recipe": (RECIPES[0], lambda text: read(text, "f", Programme())),
    "side": (tree_of("tests/seeds/side-words.yaml"), lambda text: read_side(text, "x.hi.yaml")),
    "programme": (
        tree_of("tests/seeds/programme-full.yaml"),
        lambda text: read_programme(text, "f"),
    ),
    "needs": (tree_of("tests/seeds/needs-own.yaml"), lambda text: read_needs(text, "f")),
    "layout": (
        tree_of("templates/layouts/hand-card.yaml"),
        lambda text: load_layout(text, "f"),
    ),
}


@pytest.mark.parametrize("kind", READERS)
@given(data=st.data())
@settings(max_examples=60, deadline=5000, suppress_health_check=list(HealthCheck))
def test_every_file_has_a_value_or_a_reason(kind: str, data: st.DataObject) -> None:
    sound, reader = READERS[kind]
    text = data.draw(spoilt(sound))
    result = reader(text)
    assert result.value is not None or result.diagnostics
    assert owed(result.diagnostics, {"f": text, "x.hi.yaml": text}) == []


@given(data=st.data())
@settings(max_examples=60, deadline=5000, suppress_health_check=list(HealthCheck))
def test_every_table_has_a_value_or_a_reason(data: st.DataObject) -> None:
    table = (SEEDS / "foods-own.csv").read_text(encoding="utf-8")
    rows = list(csv.reader(io.StringIO(table)))
    for _ in range(data.draw(st.integers(1, 3))):
        row = data.draw(st.sampled_from(rows))
        row[data.draw(st.integers(0, len(row) - 1))] = data.draw(
            st.one_of(TEXTS, st.floats().map(str))
        )
    stream = io.StringIO()
    csv.writer(stream).writerows(rows)
    text = stream.getvalue()
    result = own_table(text, "f", shipped_table())
    assert result.value is not None or result.diagnostics
    assert owed(result.diagnostics, {"f": text, "x.hi.yaml": text}) == []


SIGNS = (
    "{{|}}|{%|%}| if | days | time |days|[0]|[:1]|[:-1]|.x|()| else |endif| not | in |==|<|~|+|'a'|"
    "2|,|(|)|[|]|{#|#}| for |endfor| is |-|%| raw | set |=|\\|upper"
)
PIECES = st.sampled_from(SIGNS.split("|"))


@given(pieces=st.lists(PIECES, min_size=1, max_size=14))
@settings(max_examples=200, deadline=5000)
def test_a_phrase_is_refused_or_can_always_be_filled_in(pieces: list[str]) -> None:
    text = "days " + "".join(pieces)
    told = template_fault(text, ("days", "time"))
    if told is None:
        for days, time in product(("", "2", "yes", "क्ष"), repeat=2):
            template(text).render(days=days, time=time)
    else:
        assert all(told)


def test_the_seeds_are_sound_files() -> None:
    assert read(PLAIN, "f", Programme()).value is not None
    for sound, reader in READERS.values():
        assert reader(json.dumps(sound, ensure_ascii=False)).value is not None
    table = (SEEDS / "foods-own.csv").read_text(encoding="utf-8")
    assert own_table(table, "f", shipped_table()).value is not None
