"""Files set in house order: nothing said is changed, no comment lost.

What a text says is read with PyYAML's own loader, and its comments are found by Pygments.
"""

from __future__ import annotations

import os
import re
import stat
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st
from pygments.lexers.data import YamlLexer
from pygments.token import Comment

from cards.batch.new import new_recipe
from cards.cli import command
from cards.source.model import LANGUAGES, RecipeIn, StepIn
from cards.source.tidy import tidy
from tests.conftest import PLAIN, ROOT, Bench

RECIPES = sorted(p for p in (ROOT / "recipes").glob("*.yaml") if p.stem != "programme")


def said(text: str) -> Any:
    return yaml.load(text, Loader=yaml.BaseLoader)


def remarks(text: str) -> Counter[str]:
    tokens = YamlLexer(stripnl=False).get_tokens(text)
    return Counter(value.strip() for kind, value in tokens if kind in Comment)


def tidied(text: str) -> str:
    """The text in order, once it is shown that it says the same and is in order for good."""
    made = tidy(text, "recipes/x.yaml")
    assert made.value is not None, made.diagnostics
    assert made.diagnostics == ()
    assert said(made.value) == said(text)
    again = tidy(made.value, "recipes/x.yaml")
    assert again.value == made.value
    return made.value


def kinds(text: str) -> list[str]:
    made = tidy(text, "recipes/x.yaml")
    assert made.value is None
    return [d.kind for d in made.diagnostics]


# -- the order


@pytest.mark.parametrize("path", RECIPES, ids=lambda p: p.stem)
def test_the_demos_survive(path: Path, bench: Bench) -> None:
    text = path.read_text(encoding="utf-8")
    made = tidied(text)
    assert remarks(made) == remarks(text)
    assert sorted(made.split()) == sorted(text.split())
    assert bench.kinds(made) == bench.kinds(text)


def test_a_recipe_is_begun_in_order() -> None:
    template = (ROOT / "templates" / "new-recipe.yaml").read_text(encoding="utf-8")
    text = new_recipe(template, "Soft rice", ["en", "hi"])
    assert tidied(text) == re.sub(r"(?m) +$", "", text)


def test_a_whole_recipe() -> None:
    text = """\
# The card of the river group.

steps:
- use: all     # with the skins
  hi: मसलें
  do: mash
  en: Mash.
- time: 5 minutes
  # not too hot
  do: cool


title: {hi: "नरम # चावल", en: Rice}
ingredients:
- grams: 60
  food: rice

# or any oil
- 1 tbsp ghee
accept:
-   role: nurse
    reason: it is agreed
    finding: added-salt
recipe: 1
"""
    assert (
        tidied(text)
        == """\
# The card of the river group.

recipe: 1

title: {en: Rice, hi: "नरम # चावल"}
ingredients:
  - food: rice
    grams: 60

  # or any oil
  - 1 tbsp ghee
steps:
  - do: mash
    use: all     # with the skins
    en: Mash.
    hi: मसलें
  # not too hot
  - do: cool
    time: 5 minutes
accept:
  - finding: added-salt
    reason: it is agreed
    role: nurse
"""
    )


def test_every_key_of_the_models_has_its_place() -> None:
    names = list(RecipeIn.model_fields)
    text = "".join(f"{name}: x\n" for name in reversed(names))
    assert list(said(tidied(text))) == names
    steps = [name for name in StepIn.model_fields if name != "words"]
    lines = "".join(f"    {name}: x\n" for name in (*reversed(LANGUAGES), *reversed(steps)))
    made = said(tidied("steps:\n  -\n" + lines))
    assert list(made["steps"][0]) == [*steps, *LANGUAGES]


def test_inside_parts_as_outside() -> None:
    text = "parts:\n- steps:\n  - use: all\n    do: mash\n  part: {hi: क, en: A}\nrecipe: 1\n"
    assert tidied(text) == (
        "recipe: 1\nparts:\n  - part: {en: A, hi: क}\n    steps:\n"
        "      - do: mash\n        use: all\n"
    )


def test_unknown_keys_stay_last_in_their_own_order() -> None:
    text = "zeal: 1\nsteps:\n  - wait: 1\n    do: mix\n    also: 2\nabout: 2\nrecipe: 1\n"
    assert tidied(text) == (
        "recipe: 1\nsteps:\n  - do: mix\n    wait: 1\n    also: 2\nzeal: 1\nabout: 2\n"
    )


def test_lists_keep_their_order() -> None:
    text = "steps:\n- do: mix\n- do: add\ningredients: [b, a]\n"
    assert [s["do"] for s in said(tidied(text))["steps"]] == ["mix", "add"]
    assert said(tidied(text))["ingredients"] == ["b", "a"]


# -- comments


def test_comments_at_head_and_foot() -> None:
    text = "# yaml-language-server: $schema=x.json\n# of the title\ntitle: a\nrecipe: 1\n\n# foot\n"
    assert tidied(text) == (
        "# yaml-language-server: $schema=x.json\nrecipe: 1\n# of the title\ntitle: a\n\n# foot\n"
    )


def test_what_a_blank_line_parts_from_the_first_key_heads_the_file() -> None:
    text = "\n\n# about the file\n\n# about the title\ntitle: a\nrecipe: 1\n"
    assert tidied(text) == "# about the file\n\nrecipe: 1\n# about the title\ntitle: a\n"


def test_a_remark_set_deeper_stays_with_the_list_it_ends() -> None:
    text = "ingredients:\n- 2 eggs\n  # - 1 pinch salt\n# how\nsteps: []\ntitle: a\n"
    assert tidied(text) == (
        "title: a\ningredients:\n  - 2 eggs\n    # - 1 pinch salt\n# how\nsteps: []\n"
    )
    listed = text.replace("- 2 eggs\n  #", "  - 2 eggs\n  #")
    assert "  - 2 eggs\n  # - 1 pinch salt\n# how\nsteps" in tidied(listed)


def test_a_remark_that_runs_on_below_itself() -> None:
    text = "steps:\n-   use: all   # all of it,\n               # skins too\n    do: mash\n"
    assert tidied(text) == (
        "steps:\n  - do: mash\n    use: all   # all of it,\n               # skins too\n"
    )


def test_remarks_between_key_and_value() -> None:
    text = "title:   # both\n  # the second\n  hi: क\n  # the first\n  en: A\nkeep:  # how long\n"
    assert tidied(text) == (
        "title:   # both\n  # the first\n  en: A\n  # the second\n  hi: क\nkeep:  # how long\n"
    )
    assert tidied("keep: # say\n     # more\n\n     2 hours\n") == (
        "keep: # say\n  # more\n  2 hours\n"
    )


def test_remarks_at_a_dash() -> None:
    assert tidied(
        "steps:\n- # first\n    use: all\n    do: mash\n-\n    # next\n    do: mix\n"
    ) == ("steps:\n  - # first\n    do: mash\n    use: all\n  # next\n  - do: mix\n")


def test_remarks_in_brackets() -> None:
    text = "ingredients: [\n  rice, # washed\n  {grams: 3,\n   food: oil}, # any\n]   # all\n"
    assert tidied(text) == text
    assert remarks(tidied(text)) == Counter(["# washed", "# any", "# all"])


# -- texts


def test_a_number_sign_in_a_text_is_no_remark() -> None:
    text = "notes: 'a # b' # c\ncredit: a#b\ntitle: \"it's # #\"   #d\nrecipe: 1\n"
    made = tidied(text)
    assert remarks(made) == Counter(["# c", "#d"])
    assert 'title: "it\'s # #"   #d\n' in made


@pytest.mark.parametrize("sign", ["|", ">", "|-", ">-", "|+", ">+", "|4", ">4-"])
def test_texts_below_a_sign(sign: str) -> None:
    text = (
        f"notes: {sign}   # mine\n    # no remark  \n\n\n      deep: x\n    end\n\n\n"
        "# of the number\nrecipe: 1\n"
    )
    made = tidied(text)
    assert made.startswith("# of the number\nrecipe: 1\n")
    assert "# no remark  \n\n\n" in made
    assert f"{sign}   # mine\n" in made


def test_a_sign_within_a_list() -> None:
    text = (
        "steps:\n-   hi: |2\n         x\n      y\n  # of this\n"
        "# of the next\n-   en: >-\n       z\n    do: mix\n"
    )
    assert tidied(text) == (
        "steps:\n  - hi: |2\n         x\n      y\n    # of this\n  # of the next\n"
        "  - do: mix\n    en: >-\n      z\n"
    )


def test_a_remark_below_a_sign_does_not_become_text() -> None:
    text = "steps:\n  - do: mix\n    en: |\n          slowly\n      # set deeper\n"
    assert tidied(text) == "steps:\n  - do: mix\n    en: |\n      slowly\n    # set deeper\n"


def test_texts_over_several_lines() -> None:
    text = (
        "notes: \"a\\ \n    b\\\n     c\"\ncredit: we\n     all\n\n     here\ntitle: 'x\n\n\n  y'\n"
    )
    made = tidied(text)
    assert "credit: we\n  all\n\n  here\n" in made
    assert made.startswith("title: 'x\n\n\n  y'\n")


@pytest.mark.parametrize(
    "end", ["", "\n", "\n\n\n", "\r\n", "\r", "  \n \n"], ids=[str(n) for n in range(6)]
)
def test_the_end_of_the_file(end: str) -> None:
    assert tidied("recipe: 1" + end) == "recipe: 1\n"


def test_a_text_below_a_sign_may_end_the_file() -> None:
    made = tidy("notes: |\n   a", "x.yaml")
    assert made.value == "notes: |\n  a\n"


def test_line_ends_marks_and_tabs() -> None:
    text = "\ufefftitle:\tनरम\t# tab \t\r\n  \r\n\r\nrecipe: 1\r\n"
    made = tidy(text, "x.yaml").value
    assert made == "recipe: 1\n\ntitle: नरम  # tab\n"


def test_blank_lines_between_keys_are_neither_lost_nor_many() -> None:
    text = "steps: []\n\n\n\ntitle: a\n\n# r\nrecipe: 1\nages: from 9 months\n"
    assert tidied(text) == "# r\nrecipe: 1\n\ntitle: a\nages: from 9 months\n\nsteps: []\n"


def test_the_beginning_and_end_of_a_document() -> None:
    text = "%YAML 1.1\n---\n# t\ntitle: a\nrecipe: 1\n...\n# over\n"
    assert tidied(text) == "%YAML 1.1\n---\nrecipe: 1\n# t\ntitle: a\n...\n# over\n"


def test_a_file_in_brackets() -> None:
    assert tidied("\n{recipe: 1,   \n title: {en: A}} # x\n\n\n") == (
        "{recipe: 1,\n title: {en: A}} # x\n"
    )


# -- what is left alone


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "file-empty"),
        ("# only this\n", "file-empty"),
        ("steps:\n\t- do: mix\n", "yaml-tab"),
        ("title: a\ntitle: b\n", "key-twice"),
        ("notes: *a\n", "yaml-anchor"),
        ("- a\n", "file-shape"),
        ("? title\n: a\n", "tidy-unsafe"),
        # a line separator in a text: to YAML a line end that is kept as it is
        ("notes: a\u2028  b\nrecipe: 1\n", "tidy-unsafe"),
    ],
)
def test_files_that_are_left_alone(text: str, kind: str) -> None:
    assert kinds(text) == [kind]


@pytest.mark.parametrize("made", ["recipe: 1\n", "recipe: 2  # one\n", "recipe: 1  # one # one\n"])
def test_a_slip_of_our_own_is_caught(made: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cards.source.tidy._Setter.text", lambda _: made)
    assert kinds("recipe: 1  # one\n") == ["tidy-unsafe"]


# -- any recipe, any way of writing it


TEXTS = st.sampled_from(
    ["rice", "2 cups (90 g) rice, washed", "'x # y'", '"a: # b"', "नरम चावल", "a#b", "''", "~", ""]
)
WORDS = st.sampled_from(["do", "use", "time", "flame", "lid", "until", "size", "hi", "en", "odd"])


@st.composite
def written(draw: st.DrawFn) -> tuple[str, list[tuple[str, str]]]:
    """A recipe as someone might write it, and each remark with what stands on or below its line."""
    seen: list[tuple[str, str]] = []

    def above(indent: str, owner: str) -> list[str]:
        rows = []
        for sort in draw(st.lists(st.sampled_from("# "), max_size=3)):
            if sort == "#":
                seen.append((f"# r{len(seen)} it's: [-", owner))
                rows.append(indent + seen[-1][0])
            else:
                rows.append(draw(st.sampled_from(["", "   "])))
        return rows

    def beside(owner: str) -> str:
        if draw(st.integers(0, 3)):
            return draw(st.sampled_from(["", "", "  "]))
        seen.append((f"#r{len(seen)} | > {{", owner))
        return draw(st.sampled_from([" ", "    "])) + seen[-1][0]

    def texts(indent: str, key: str) -> list[str]:
        shape = draw(st.integers(0, 9))
        deeper = indent + " " * draw(st.integers(1, 5))
        head = f"{indent}{key}:"
        if shape == 0:
            return [
                f"{head} {draw(st.sampled_from(['|', '>', '|-', '>-']))}{beside(key)}",
                deeper + "# text",
                deeper + "   more",
                "",
                deeper + "end ",
            ]
        if shape == 1:
            return [f'{head} "one', f"{deeper}two # no", "", f'{deeper}three"{beside(key)}']
        if shape == 2:
            return [f"{head} one", f"{deeper}two: x".replace(":", ""), f"{deeper}end{beside(key)}"]
        gap = draw(st.sampled_from([" ", "   "]))
        return [f"{head}{gap}{draw(TEXTS)}{beside(key)}"]

    def steps(indent: str) -> list[str]:
        rows = []
        for _ in range(draw(st.integers(1, 3))):
            dash = "-" + " " * draw(st.integers(1, 3))
            rows += above(indent, "-")
            inner = indent + " " * len(dash)
            for n, key in enumerate(draw(st.lists(WORDS, min_size=1, max_size=4, unique=True))):
                made = texts(inner, key)
                rows += above(inner, key) if n else []
                rows += [indent + dash + made[0][len(inner) :], *made[1:]] if not n else made
        return rows

    rows = above("", "") if draw(st.booleans()) else []
    rows += [""] if rows else []
    seen[:] = [(text, "") for text, _ in seen]
    names = draw(st.permutations([*RecipeIn.model_fields, "odd", "even"]))
    for n, name in enumerate(names[: draw(st.integers(1, len(names)))]):
        # what stands above the first key may belong to it or to the file
        rows += above("", name if n else "")
        if name == "steps":
            rows += [f"steps:{beside(name)}", *steps(" " * draw(st.integers(0, 4)))]
        elif name == "title":
            rows += [f"title:{beside(name)}"]
            for code in draw(st.permutations(LANGUAGES))[:2]:
                rows += [*above("   ", code), f"   {code}: x{beside(code)}"]
        else:
            rows += texts("", name)
    rows += above("", "")
    return draw(st.sampled_from(["\n", "\r\n"])).join([*rows, ""]), seen


@settings(max_examples=200, deadline=None)
@given(written())
def test_any_recipe(case: tuple[str, list[tuple[str, str]]]) -> None:
    text, seen = case
    made = tidied(text)
    assert remarks(made) == remarks(text) == Counter(remark for remark, _ in seen)
    rows = made.splitlines()
    for remark, owner in seen:
        at = next(n for n, row in enumerate(rows) if remark in row)
        while owner and (not rows[at] or rows[at].lstrip().startswith("# r")):
            at += 1
        row = rows[at].lstrip()
        if owner == "-":
            assert row.startswith("- ")
        elif '"' not in row and "end" not in row:
            assert row.removeprefix("- ").startswith(owner), (remark, owner)
    keys = list(said(made))
    known = [key for key in RecipeIn.model_fields if key in keys]
    assert keys[: len(known)] == known
    assert keys[len(known) :] == [key for key in said(text) if key in ("odd", "even")]


# -- the command


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a tidy recipe, an untidy one and a programme."""
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "recipes" / "mixed.yaml").write_bytes(MIXED)
    (tmp_path / "recipes" / "programme.yaml").write_text("name: x\nprogramme: 1\n")
    monkeypatch.chdir(tmp_path)
    return tmp_path


MIXED = PLAIN.replace("recipe: 1\n", "").encode() + b"recipe: 1  # first\n"


def run(*args: str) -> Result:
    return CliRunner().invoke(command, ["tidy", *args])


def test_all_recipes_of_the_folder(folder: Path) -> None:
    plain = (folder / "recipes" / "plain.yaml").stat()
    result = run()
    assert (result.exit_code, result.output) == (0, "recipes/mixed.yaml: tidied\n")
    made = (folder / "recipes" / "mixed.yaml").read_text(encoding="utf-8")
    assert made == PLAIN.replace("recipe: 1\n", "recipe: 1  # first\n")
    assert (folder / "recipes" / "plain.yaml").stat() == plain
    assert (folder / "recipes" / "programme.yaml").read_text() == "name: x\nprogramme: 1\n"
    assert sorted(p.name for p in (folder / "recipes").iterdir()) == [
        "mixed.yaml",
        "plain.yaml",
        "programme.yaml",
    ]
    again = run()
    assert (again.exit_code, again.output) == (0, "nothing to tidy\n")


def test_check_writes_nothing(folder: Path) -> None:
    result = run("--check")
    assert (result.exit_code, result.output) == (1, "recipes/mixed.yaml: would change\n")
    assert (folder / "recipes" / "mixed.yaml").read_bytes() == MIXED
    assert run("--check", "recipes/plain.yaml").exit_code == 0


@pytest.mark.parametrize(
    "content", [b"\xef\xbb\xbf" + PLAIN.encode(), PLAIN.replace("\n", "\r\n").encode()]
)
def test_a_mark_or_other_line_ends_alone_are_tidied(folder: Path, content: bytes) -> None:
    path = folder / "recipes" / "plain.yaml"
    path.write_bytes(content)
    assert run("--check", "recipes/plain.yaml").exit_code == 1
    assert run("recipes/plain.yaml").exit_code == 0
    assert path.read_bytes() == PLAIN.encode()


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (b"", "file-empty"),
        (b"title: a: b\n", "yaml-colon"),
        (b"? title\n: a\n", "tidy-unsafe"),
        (b"title: r\xe9cit\n", "file-not-text"),
    ],
)
def test_a_faulty_file_is_told_and_left(folder: Path, content: bytes, kind: str) -> None:
    path = folder / "recipes" / "mixed.yaml"
    path.write_bytes(content)
    result = run()
    assert result.exit_code == 1
    assert "recipes/mixed.yaml: left as it is\n" in result.output
    assert result.output.count(" error ") == result.output.count(f" error {kind}: ") == 1
    assert path.read_bytes() == content


def test_a_missing_file(folder: Path) -> None:
    result = run("recipes/none.yaml")
    assert result.exit_code == 1
    assert "file-missing" in result.output


def test_a_read_only_file_is_left(folder: Path) -> None:
    path = folder / "recipes" / "mixed.yaml"
    path.chmod(0o444)
    result = run()
    assert result.exit_code == 1
    assert "recipes/mixed.yaml: error file-read-only" in result.output
    assert path.read_bytes() == MIXED


@pytest.mark.skipif(os.name == "nt", reason="rights are others there")
def test_a_file_keeps_its_rights_and_links_stay_links(folder: Path) -> None:
    path = folder / "recipes" / "mixed.yaml"
    path.chmod(0o640)
    link = folder / "link.yaml"
    link.symlink_to(path)
    assert run("link.yaml").exit_code == 0
    assert link.is_symlink()
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert path.read_text(encoding="utf-8").startswith("recipe: 1  # first\n")
