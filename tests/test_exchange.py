"""Words go to translators and come back: nothing is lost, nothing wrong gets in.

What is exported is read with GNU gettext and the standard library, not with what wrote it.
"""

from __future__ import annotations

import gettext
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st

from cards.batch.kit import Kit, open_kit
from cards.batch.rooms import Rooms
from cards.batch.stages import Run, run_file, run_text
from cards.batch.write import write_all
from cards.card.model import Card
from cards.cli import command
from cards.diagnostics.diagnostic import Place
from cards.layout.pages import TextItem
from cards.source.edit import Change, edit, scalar
from cards.source.signed import words_digest
from cards.source.workspace import open_workspace
from cards.words import po
from cards.words.state import State
from cards.words.translation import Reader, check_translation, scripts_of
from cards.words.units import Unit, letters, plural_forms
from tests.conftest import PLAIN, ROOT

DISH = """\
# my own remark
recipe: 1
title:
  en: Soft rice  # first
  hi: नरम चावल
ages: 6-23 months
makes: 2 cups (500 g)
ingredients:
  - 6 tbsp rice
  - 3 tbsp moong dal
  - 2 cups water
  - 1 tbsp ghee
steps:
  - do: boil
    use: rice, moong dal, water
    time: 20 minutes
    en: Boil all but the ghee for 20 minutes.
    hi: घी छोड़कर सब 20 मिनट उबालें।
  - do: mash
    use: all
    en: Mash it well.
    hi: अच्छे से मसलें।
"""
ONLY_ENGLISH = re.sub(r"(?m)^ *hi: .*\n", "", DISH)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a programme, two recipes and words of its own."""
    (tmp_path / "recipes").mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", tmp_path / "recipes")
    (tmp_path / "recipes" / "dish.yaml").write_text(DISH, encoding="utf-8")
    (tmp_path / "recipes" / "other.yaml").write_text(ONLY_ENGLISH, encoding="utf-8")
    words = tmp_path / "templates" / "words"
    words.mkdir(parents=True)
    for code in ("en", "hi"):
        shutil.copy(ROOT / "templates" / "words" / f"{code}.yaml", words)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture(autouse=True)
def unmeasured(monkeypatch: pytest.MonkeyPatch) -> None:
    """Rooms are measured in tests of their own; here that would take most of the time."""
    monkeypatch.setattr(Rooms, "room", lambda self, unit: None)


def run(*args: str) -> Result:
    return CliRunner(env={"COLUMNS": "200"}).invoke(command, list(args))


def snapshot(folder: Path) -> dict[str, bytes]:
    return {
        str(p.relative_to(folder)): p.read_bytes()
        for part in ("recipes", "templates")
        for p in sorted((folder / part).rglob("*"))
        if p.is_file()
    }


def exported(code: str, *more: str) -> str:
    result = run("words", "export", "--to", code, "-o", "x.po", *more)
    assert result.exit_code == 0, result.output
    return Path("x.po").read_text(encoding="utf-8")


def imported(text: str) -> Result:
    Path("x.po").write_text(text, encoding="utf-8")
    return run("words", "import", "x.po")


def answered(text: str, source: str, target: str) -> str:
    """The PO file with one entry translated, and no longer fuzzy."""
    pattern = rf'((?:#, fuzzy\n)?)((?:#\|.*\n)?msgctxt .*\nmsgid "{re.escape(source)}"\nmsgstr ).*'
    made, count = re.subn(pattern, lambda m: f'{m[2]}"{target}"', text, count=1)
    assert count == 1, source
    return made


def refused(folder: Path, text: str, kind: str) -> str:
    """The import fails with one error of this kind and changes nothing; what it said."""
    before = snapshot(folder)
    result = imported(text)
    assert result.exit_code == 1, result.output
    told = re.findall(r"(?m)^  (\S+?:?[0-9:]*): error ([a-z-]+): (.*)$", result.output)
    assert [t[1] for t in told] == [kind], result.output
    assert "nothing was changed" in result.output
    assert snapshot(folder) == before
    return f"{told[0][0]} {told[0][2]}"


# -- out


def compiled(text: str, folder: Path) -> gettext.GNUTranslations:
    """The PO file through GNU msgfmt and the standard library's reader."""
    tool = shutil.which("msgfmt")
    if tool is None:
        pytest.skip("GNU gettext's msgfmt is not installed")
    (folder / "y.po").write_text(text, encoding="utf-8")
    done = subprocess.run(
        [tool, "--check", "-o", "y.mo", "y.po"], cwd=folder, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    with (folder / "y.mo").open("rb") as stream:
        return gettext.GNUTranslations(stream)


def test_gettext_reads_what_is_exported(folder: Path) -> None:
    found = compiled(exported("hi"), folder)
    hindi = yaml.safe_load((folder / "templates/words/hi.yaml").read_text("utf-8"))
    english = yaml.safe_load((folder / "templates/words/en.yaml").read_text("utf-8"))
    assert found.info()["language"] == "hi"
    for section in ("phrases", "actions", "icons", "sheets"):
        for key, text in english[section].items():
            context = f"templates/words/hi.yaml: {section}/{key}"
            assert found.pgettext(context, text) == hindi[section][key]
    # Unicode CLDR: in Hindi, 0 and 1 take the form of one thing
    forms = [
        found.npgettext("templates/words/hi.yaml: foods/egg", "egg", "eggs", n) for n in (0, 1, 2)
    ]
    assert forms == ["अंडा", "अंडा", "अंडे"]
    context = "recipes/dish.yaml: steps/1"
    assert found.pgettext(context, "Mash it well.") == "अच्छे से मसलें।"
    other = "recipes/other.yaml: steps/1"
    assert found.pgettext(other, "Mash it well.") == "Mash it well."


@pytest.mark.parametrize("code", ["ar", "ru", "cy", "ja", "fa", "ml"])
def test_gettext_takes_the_plural_forms_of_any_language(folder: Path, code: str) -> None:
    text = exported(code)
    filled = re.sub(r'(msgstr(?:\[\d\])?) ""\n(?!")', r'\1 "x"' + "\n", text)
    found = compiled(filled, folder)
    assert found.npgettext(f"templates/words/{code}.yaml: units/cup", "cup", "cups", 7) == "x"
    assert text.count("msgstr[0]") * len(plural_forms(code)) == len(re.findall(r"msgstr\[", text))


def test_a_translator_is_told_what_she_needs(folder: Path) -> None:
    text = exported("hi")
    entry = next(e for e in text.split("\n\n") if "phrases/little-first" in e)
    assert "#. caution, with the picture new-food" in entry or "allergy" in entry
    assert "#. values that may be filled in: {{ allergens }}" in entry
    assert re.search(r"#\. at most \d+ letters", entry)
    step = next(e for e in text.split("\n\n") if "dish.yaml: steps/0" in e)
    assert "#. a step, with the picture boil" in step
    assert "#: recipes/dish.yaml:14" in step


def test_only_some_recipes_without_phrases(folder: Path) -> None:
    text = exported("bn", "--recipes", "recipes/dish.yaml")
    assert "recipes/other.yaml" not in text and "templates/" not in text
    assert text.count("msgctxt") == 3


def test_the_same_bytes_each_time(folder: Path) -> None:
    assert exported("bn") == exported("bn")


def test_letters_are_counted_as_they_stand(folder: Path) -> None:
    assert letters("कुछ") == 2 and letters("{{ number }} मि") == 7
    assert letters("{% if a %}x{% endif %}*b*") == 2


# -- and back


def test_nothing_changed_changes_no_byte(folder: Path) -> None:
    before = snapshot(folder)
    result = imported(exported("hi").replace("recipes/other.yaml", "recipes/other.yaml"))
    assert result.exit_code == 0, result.output
    after = snapshot(folder)
    assert set(after) - set(before) == {"templates/words/made-from/hi.yaml"}
    assert {name: after[name] for name in before} == before
    assert imported(exported("hi")).exit_code == 0
    assert snapshot(folder) == after


def test_what_other_programs_make_of_the_file_is_read(folder: Path) -> None:
    tool = shutil.which("msgcat")
    if tool is None:
        pytest.skip("GNU gettext's msgcat is not installed")
    exported("hi")
    imported(Path("x.po").read_text("utf-8"))
    before = snapshot(folder)
    for options in (["--width=20"], ["--sort-output", "--no-location"]):
        done = subprocess.run([tool, *options, "x.po"], capture_output=True, check=True)
        for text in (
            done.stdout,
            done.stdout.replace(b"\n", b"\r\n"),
            b"\xef\xbb\xbf" + done.stdout,
        ):
            Path("z.po").write_bytes(text.replace(b"Language: hi", b"Language: hi_IN"))
            result = run("words", "import", "z.po")
            assert result.exit_code == 0, result.output
            assert "z.po: 0 texts" in result.output
            assert snapshot(folder) == before


def test_a_byte_order_mark_and_line_ends_stay(folder: Path) -> None:
    path = folder / "recipes/dish.yaml"
    raw = b"\xef\xbb\xbf" + DISH.replace("\n", "\r\n").encode()
    path.write_bytes(raw)
    assert imported(answered(exported("hi"), "Mash it well.", "ख़ूब मसलें।")).exit_code == 0
    assert path.read_bytes() == raw.replace("अच्छे से".encode(), "ख़ूब".encode())


def test_a_phrase_more_is_asked_for_before_the_file_is_whole(folder: Path) -> None:
    path = folder / "templates/words/hi.yaml"
    text = path.read_text("utf-8")
    path.write_text(text.replace("  draft-mark: अनुवाद की जाँच बाकी\n", ""), encoding="utf-8")
    assert "words-missing" in run("check").output
    made = exported("hi")
    refused(folder, answered(made, "months", "माह"), "translation-half")
    assert "1 missing" in run("words", "status").output
    result = imported(answered(made, "words not yet checked", "जाँच बाकी"))
    assert result.exit_code == 0, result.output
    assert yaml.safe_load(path.read_text("utf-8"))["phrases"]["draft-mark"] == "जाँच बाकी"
    assert "words-missing" not in run("check").output


def test_english_is_asked_of_recipes_alone(folder: Path) -> None:
    (folder / "recipes/other.yaml").unlink()
    text = exported("en")
    assert "templates/" not in text and text.count("msgctxt") == 3
    assert 'msgid "अच्छे से मसलें।"\nmsgstr "Mash it well."' in text


def test_inline_words_change_where_they_stand(folder: Path) -> None:
    text = answered(exported("hi"), "Mash it well.", "बहुत अच्छे से मसलें।")
    result = imported(text)
    assert result.exit_code == 0, result.output
    now = (folder / "recipes/dish.yaml").read_text("utf-8")
    assert now == DISH.replace("अच्छे से", "बहुत अच्छे से")
    assert (folder / "recipes/dish.yaml.bak").read_text("utf-8") == DISH


FILLED = {
    "Soft rice": "नरम चावल",
    "Boil all but the ghee for 20 minutes.": "घी छोड़कर सब २० मिनट उबालें।",
    "Mash it well.": "अच्छे से मसलें।",
}


def translated(text: str, answers: dict[str, str] = FILLED) -> str:
    for source, target in answers.items():
        text = answered(text, source, target)
    return text


def other(*more: str) -> str:
    return exported("hi", "--recipes", "recipes/other.yaml", *more)


def test_a_side_file_is_begun_and_read(folder: Path) -> None:
    result = imported(translated(other()))
    assert result.exit_code == 0, result.output
    side = yaml.safe_load((folder / "recipes/other.hi.yaml").read_text("utf-8"))
    assert side["title"] == {"en": "Soft rice", "hi": "नरम चावल"}
    assert [line["hi"] for line in side["lines"]] == list(FILLED.values())[1:]
    assert "nothing to mend" in run("check", "recipes/other.yaml").output
    again = snapshot(folder)
    assert imported(other()).exit_code == 0
    assert snapshot(folder) == again


def test_a_changed_source_is_stale_and_not_used(folder: Path) -> None:
    imported(translated(other()))
    path = folder / "recipes/other.yaml"
    path.write_text(ONLY_ENGLISH.replace("Mash it well.", "Mash it very well."), encoding="utf-8")
    told = run("check", "recipes/other.yaml").output
    assert "side-line-stale" in told
    assert 'said "Mash it well.", and now says "Mash it very well."' in told
    assert re.search(r"other.yaml +hi +3 +1 stale", run("words", "status").output)
    text = other()
    assert '#, fuzzy\n#| msgid "Mash it well."' in text
    refused(folder, answered(text, "Soft rice", "नरम भात"), "translation-half")
    result = imported(answered(text, "Mash it very well.", "बहुत अच्छे से मसलें।"))
    assert result.exit_code == 0, result.output
    assert "side-line" not in run("check", "recipes/other.yaml").output
    side = (folder / "recipes/other.hi.yaml").read_text("utf-8")
    assert "Mash it well." not in side and side.count("- en:") == 2


def test_a_changed_title_is_stale_too(folder: Path) -> None:
    imported(translated(other()))
    path = folder / "recipes/other.yaml"
    path.write_text(ONLY_ENGLISH.replace("Soft rice ", "Softest rice "), encoding="utf-8")
    assert "side-line-stale" in run("check", "recipes/other.yaml").output
    assert '#| msgid "Soft rice"' in other()
    assert imported(answered(other(), "Softest rice", "सबसे नरम चावल")).exit_code == 0
    assert "nothing to mend" in run("check", "recipes/other.yaml").output


def test_remarks_in_a_side_file_stay(folder: Path) -> None:
    imported(translated(other()))
    path = folder / "recipes/other.hi.yaml"
    path.write_text("# from Asha\n" + path.read_text("utf-8") + "  # more\n", encoding="utf-8")
    assert imported(answered(other(), "Mash it well.", "ख़ूब मसलें।")).exit_code == 0
    assert "# from Asha\n" in path.read_text("utf-8") and "  # more\n" in path.read_text("utf-8")


def test_a_changed_english_phrase_flags_its_translations(folder: Path) -> None:
    assert imported(exported("hi")).exit_code == 0
    english = folder / "templates/words/en.yaml"
    text = english.read_text("utf-8")
    assert "\n  no-whole-nuts: No whole nuts" in text
    english.write_text(
        text.replace(
            "\n  no-whole-nuts: No whole nuts", "\n  no-whole-nuts: No whole or broken nuts"
        ),
        encoding="utf-8",
    )
    assert re.search(r"hi.yaml +hi +\d+ +1 stale", run("words", "status").output)
    told = run("check", "recipes/dish.yaml").output
    assert 'warning words-stale: phrases/no-whole-nuts was made from "No whole nuts"' in told
    made = exported("hi")
    assert '#, fuzzy\n#| msgid "No whole nuts"' in made
    refused(folder, answered(made, "months", "माह"), "translation-half")
    assert imported(answered(made, "No whole or broken nuts", "साबुत मेवा न दें")).exit_code == 0
    assert re.search(r"hi.yaml +hi +\d+ +complete", run("words", "status").output)
    assert "stale" not in run("check", "recipes/dish.yaml").output


def test_a_signed_words_file_lapses_with_its_english(folder: Path) -> None:
    assert sign("templates/words/hi.yaml").exit_code == 0
    assert sign("recipes/dish.yaml").exit_code == 0
    assert marks(folder, "recipes/dish.yaml") == []
    english = folder / "templates/words/en.yaml"
    english.write_text(english.read_text("utf-8").replace("whole nuts", "hard nuts"), "utf-8")
    assert marks(folder, "recipes/dish.yaml") == ["hi"]
    assert "changed since checked" in run("words", "status").output


def test_names_of_foods_may_be_left_out(folder: Path) -> None:
    path = folder / "templates/words/hi.yaml"
    text = path.read_text("utf-8")
    assert "\n  salt: नमक\n" in text
    path.write_text(text.replace("\n  salt: नमक\n", "\n"), encoding="utf-8")
    result = imported(answered(exported("hi"), "months", "माह"))
    assert result.exit_code == 0, result.output
    assert "note translation-missing: 4 texts" in result.output


def all_of(code: str) -> str:
    """A PO file in which every text is said as in Hindi, for a language of the same letters."""
    hindi, text = exported("hi"), exported(code)
    told = dict(
        re.findall(
            r'msgctxt "(?:\S+: )(\S.*)"\nmsgid .*\n(?:msgid_plural .*\n)?((?:msgstr.*\n)+)', hindi
        )
    )

    def filled(m: re.Match[str]) -> str:
        return m[1] + told[m[2]] if m[2] in told else m[0]

    return re.sub(
        r'(msgctxt "(?:templates/\S+: )(\S.*)"\nmsgid .*\n(?:msgid_plural .*\n)?)(?:msgstr.*\n)+',
        filled,
        text,
    )


def test_a_language_is_begun_from_nothing(folder: Path) -> None:
    result = imported(all_of("ne"))
    assert result.exit_code == 0, result.output
    nepali = yaml.safe_load((folder / "templates/words/ne.yaml").read_text("utf-8"))
    hindi = yaml.safe_load((folder / "templates/words/hi.yaml").read_text("utf-8"))
    for section in ("phrases", "actions", "units", "preps", "ends", "icons", "sheets"):
        assert nepali[section] == hindi[section]
    path = folder / "recipes/programme.yaml"
    path.write_text(path.read_text("utf-8").replace("[en, hi]", "[en, ne]"), encoding="utf-8")
    kit = open_kit(open_workspace(folder))
    assert kit.value is not None, kit.diagnostics
    assert kit.value.languages[1].state.is_draft


# -- what is refused, each with one message, and nothing written


@pytest.mark.parametrize(
    ("source", "target", "kind"),
    [
        ("Boil all but the ghee for 20 minutes.", "सब 25 मिनट उबालें।", "translation-numbers"),
        ("Boil all but the ghee for 20 minutes.", "सब आधा घंटा उबालें।", "translation-numbers"),
        ("Boil all but the ghee for 20 minutes.", "सब उबालें।", "translation-numbers"),
        ("Mash it well.", "अच्छे से \u202eमसलें।", "translation-hidden"),
        ("Mash it well.", "अच्छे \u200fसे मसलें।", "translation-hidden"),
        ("Mash it well.", "अच्छे से mसलें।", "translation-script"),
        ("Mash it well.", "Mash it nicely.", "translation-script"),
        ("Mash it well.", "অচ্ছে মসলো", "translation-script"),
        ("Mash it well.", "{{ foods }} मसलें।", "translation-values"),
        ("Mash it well.", "*अच्छे* से मसलें।", "translation-values"),
        ("Mash it well.", "मसलें " * 60, "translation-values"),
        ("Mash it well.", "अच्छे से मसलें 🍚", "translation-glyph"),
    ],
)
def test_a_wrong_recipe_text(folder: Path, source: str, target: str, kind: str) -> None:
    text = answered(translated(other()), source, target)
    told = refused(folder, text, kind)
    line = text.splitlines().index(f'msgid "{source}"') + 1
    assert told.startswith(f"x.po:{line}:1 ")


@pytest.mark.parametrize(
    ("source", "target", "kind"),
    [
        ("in all {{ time }}", "कुल", "translation-values"),
        ("in all {{ time }}", "कुल {{ tyme }}", "translation-values"),
        ("in all {{ time }}", "कुल {{ time }", "translation-values"),
        ("in all {{ time }}", "कुल {{ time }} {{ time.x }}", "translation-values"),
        ("in all {{ time }}", "कुल 5 {{ time }}", "translation-numbers"),
    ],
)
def test_a_wrong_phrase(folder: Path, source: str, target: str, kind: str) -> None:
    text = exported("hi")
    if f'msgid "{source}"' not in text:
        source = next(
            m[1]
            for m in re.finditer(r'msgid "(.*)"', text)
            if "{{ time }}" in m[1] and "all" in m[1]
        )
    refused(folder, answered(text, source, target), kind)


def test_numbers_agree_in_any_digits_and_words(folder: Path) -> None:
    for minutes in ("२०", "20", "बीस"):
        answers = {**FILLED, list(FILLED)[1]: f"घी छोड़कर सब {minutes} मिनट उबालें।"}
        result = imported(translated(other(), answers))
        assert result.exit_code == 0, result.output


def test_what_is_long_or_hard_is_told_and_taken(folder: Path) -> None:
    answers = {**FILLED, "Mash it well.": "मिश्रण को बहुत बहुत अच्छे से धीरे धीरे मसलें।"}
    result = imported(translated(other(), answers))
    assert result.exit_code == 0
    assert "warning translation-long" in result.output and "warning word-hard" in result.output


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ('"Language: hi\\n"\n', "", "po-language"),
        ("Language: hi", "Language: qqq", "po-language"),
        ("Language: hi", "Language: ", "po-language"),
        ("nplurals=2", "nplurals=3", "po-plurals"),
        ('msgid "Mash it well."', 'msgid "Mash it well.', "po-broken"),
        ('msgid "Mash it well."', 'megid "Mash it well."', "po-broken"),
        ('msgid "Mash it well."', 'msgid "Mash "it" well."', "po-broken"),
        ('msgid "Mash it well."\n', "", "po-broken"),
        ('msgstr "अच्छे से मसलें।"', "", "po-broken"),
        ("dish.yaml: steps/1", "dish.yaml: steps/0", "po-broken"),
        ("recipes/dish.yaml: steps/1", "recipes/gone.yaml: steps/1", "po-stale"),
        ('msgid "Mash it well."', 'msgid "Beat it well."', "po-stale"),
        ('msgstr[1] "अंडे"', 'msgstr[1] ""', "translation-plural"),
    ],
)
def test_a_broken_file(folder: Path, old: str, new: str, kind: str) -> None:
    text = exported("hi").replace("recipes/other.yaml", "recipes/other.yaml")
    assert old in text
    refused(folder, text.replace(old, new, 1), kind)


def test_half_a_translation_is_none(folder: Path) -> None:
    told = refused(folder, answered(other(), "Soft rice", "नरम चावल"), "translation-half")
    assert "2 of 3 texts of recipes/other.yaml" in told
    refused(folder, other(), "translation-half")
    fuzzy = translated(other()).replace("#. a step", "#, fuzzy\n#. a step", 1)
    refused(folder, fuzzy, "translation-half")


def test_an_unknown_language_is_not_exported(folder: Path) -> None:
    result = run("words", "export", "--to", "qqq")
    assert result.exit_code == 1 and "error po-language" in result.output
    assert not (folder / "out" / "words-qqq.po").exists()


ALL_OR_NONE = {"a": b"new a", "b/c": b"new c"}


def test_files_are_written_all_or_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "b").mkdir()
    for name in ALL_OR_NONE:
        (tmp_path / name).write_bytes(b"old")
    files = {tmp_path / name: data for name, data in ALL_OR_NONE.items()}
    real, count = Path.replace, 0

    def failing(self: Path, target: Path) -> Path:
        nonlocal count
        count += 1
        if count == 4:  # both backups and the first file are in their places by then
            raise OSError(28, os.strerror(28))
        return real(self, target)

    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", failing)
        done = write_all(files, lambda p: p.name)
    assert done.value is None and done.diagnostics[0].kind == "out-unwritable"
    assert {p.name: p.read_bytes() for p in tmp_path.rglob("*") if p.is_file()} == {
        "a": b"old",
        "c": b"old",
    }
    assert write_all(files, lambda p: p.name).value == tuple(files)
    assert (tmp_path / "b" / "c.bak").read_bytes() == b"old"
    assert not list(tmp_path.rglob("*.part"))


def test_a_file_that_may_only_be_read(folder: Path) -> None:
    (folder / "recipes/dish.yaml").chmod(0o444)
    text = answered(exported("hi"), "Mash it well.", "ख़ूब मसलें।")
    text = answered(text, "months", "माह")
    refused(folder, text, "file-read-only")


# -- signatures


def sign(name: str, *more: str) -> Result:
    return run("words", "sign", name, "--in", "hi", "--role", "first-language teacher", *more)


def test_signed_words_bear_no_mark_until_they_change(folder: Path) -> None:
    words, dish = "templates/words/hi.yaml", "recipes/dish.yaml"
    assert marks(folder, dish) == ["hi"]
    assert sign(words, "--date", "2026-11-25").exit_code == 0
    assert marks(folder, dish) == ["hi"]
    first = digest(folder, dish)
    assert sign(dish, "--date", "2026-11-25").exit_code == 0
    assert marks(folder, dish) == []
    assert digest(folder, dish) != first
    assert run("make", dish, "--only-checked").exit_code == 0
    path = folder / dish
    signed = path.read_text("utf-8")
    assert signed.startswith(DISH)
    # what it was made from counts as well
    for old, new in (("Mash it well.", "Mash it."), ("अच्छे से", "ख़ूब")):
        path.write_text(signed.replace(old, new), encoding="utf-8")
        assert marks(folder, dish) == ["hi"]
        told = run("check", dish).output
        assert "note signature-lapsed" in told and "2026-11-25" in told
        refusal = run("make", dish, "--only-checked")
        assert refusal.exit_code == 1 and refusal.output.count("error words-draft") == 1
    assert sign(dish, "--date", "2026-11-26").exit_code == 0
    assert path.read_text("utf-8").count("role:") == 1
    assert marks(folder, dish) == []
    # the order of steps is no word
    text = path.read_text("utf-8").replace("signed:", "version: 2\nsigned:")
    path.write_text(text, encoding="utf-8")
    assert marks(folder, dish) == []


def test_a_side_file_and_a_words_file_are_signed(folder: Path) -> None:
    imported(translated(other()))
    assert sign("recipes/other.yaml").exit_code == 0
    side = yaml.safe_load((folder / "recipes/other.hi.yaml").read_text("utf-8"))
    pairs = [("Soft rice", "नरम चावल"), *list(FILLED.items())[1:]]
    assert side["signed"]["words"] == words_digest(pairs)
    assert sign("templates/words/hi.yaml").exit_code == 0
    assert marks(folder, "recipes/other.yaml") == []
    path = folder / "templates/words/hi.yaml"
    path.write_text(path.read_text("utf-8").replace("months: महीने", "months: माह"), "utf-8")
    assert marks(folder, "recipes/other.yaml") == ["hi"]
    assert "signature-lapsed" in run("check", "recipes/other.yaml").output
    told = run("make", "--only-checked").output
    assert told.count("words-draft") == 1 and "templates/words/hi.yaml" in told


def test_what_cannot_be_signed(folder: Path) -> None:
    before = snapshot(folder)
    for name in ("recipes/other.yaml", "templates/words/en.yaml"):
        result = sign(name)
        assert result.exit_code == 1 and "error sign-unready" in result.output, result.output
    assert "value-wrong" in sign("recipes/dish.yaml", "--date", "25.11.2026").output
    assert snapshot(folder) == before


def test_the_author_may_call_her_own_words_a_draft(folder: Path) -> None:
    path = folder / "recipes/dish.yaml"
    path.write_text(DISH + "signed:\n  en: draft\n", encoding="utf-8")
    assert marks(folder, "recipes/dish.yaml") == ["en", "hi"]


def marks(folder: Path, name: str) -> list[str]:
    """The languages a card says to be drafts."""
    kit = open_kit(open_workspace(folder)).value
    assert kit is not None
    return [t.language for t in card_of(folder, name, kit).foot.drafts]


def digest(folder: Path, name: str) -> str:
    kit = open_kit(open_workspace(folder)).value
    assert kit is not None
    return card_of(folder, name, kit).foot.qr.rpartition("=")[2]


def card_of(folder: Path, name: str, kit: Kit) -> Card:
    done: Run = run_file(folder / name, open_workspace(folder), kit)
    assert done.card is not None, done.diagnostics
    return done.card


def test_the_mark_is_printed_in_its_own_language(kit: Kit) -> None:
    done = run_text(PLAIN, "recipes/x.yaml", kit)
    assert done.pages is not None
    lines = [
        (item.language, item.line.text)
        for page in done.pages.pages
        for item in page.items
        if getattr(item, "role", "") == "trace"
    ]
    assert ("hi", "अनुवाद की जाँच बाकी") in lines
    assert not any("not yet checked" in text for _, text in lines)


@pytest.mark.parametrize("layout", ["hand-card", "pocket-card", "full-sheet", "wall-chart-a2"])
def test_marks_of_two_languages_fit_every_card(layout: str) -> None:
    workspace = open_workspace(ROOT)
    kit = open_kit(workspace, layout).value
    assert kit is not None
    for language in kit.languages:
        language.state = State.DRAFT
    for path in workspace.recipe_files():
        done = run_file(path, workspace, kit)
        assert done.pages is not None, path
        assert not done.diagnostics, (path, done.diagnostics)
        said = [
            item.language
            for page in done.pages.pages
            for item in page.items
            if isinstance(item, TextItem)
            and item.line.text in ("words not yet checked", "अनुवाद की जाँच बाकी")
        ]
        assert sorted(said) == ["en", "hi"]


@pytest.mark.parametrize(
    "signature",
    [
        "yes",
        "{role: teacher, date: 2026-11-25}",
        "{role: x, date: 2026-11-25, words: 1a2b3c4d}",
        "{role: teacher, date: 25.11.26, words: 1a2b3c4d}",
        "{role: teacher, date: 2026-11-25, words: 1A2B}",
        "{role: teacher, date: 2026-11-25, words: 1a2b3c4d, more: 1}",
        "[teacher]",
    ],
)
def test_what_is_no_signature(folder: Path, signature: str) -> None:
    path = folder / "recipes/dish.yaml"
    path.write_text(f"{DISH}signed:\n  hi: {signature}\n", encoding="utf-8")
    told = run("check", "recipes/dish.yaml").output
    assert "1 error" in told and "dish.yaml:24:7: error value-wrong" in told, told
    words = folder / "templates/words/hi.yaml"
    words.write_text(f"signed: {signature}\n" + words.read_text("utf-8"), encoding="utf-8")
    told = run("check", "recipes/dish.yaml").output
    assert told.count(" error ") == 1 and "hi.yaml:1:9: error value-wrong" in told, told


# -- any text


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=300))
def test_any_text_is_read_or_refused(text: str) -> None:
    found = po.read(text, "x.po")
    assert (found.value is None) == found.failed


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_file_with_lines_lost_is_read_or_refused(data: st.DataObject) -> None:
    rows = SMALL.splitlines(keepends=True)
    for _ in range(data.draw(st.integers(1, 4))):
        n = data.draw(st.integers(0, len(rows) - 1))
        rows[n : n + 1] = data.draw(st.sampled_from([[], [rows[n]] * 2, [rows[n][:-3] + "\n"]]))
    found = po.read("".join(rows), "x.po")
    assert (found.value is None) == found.failed


UNIT = Unit("f", "steps/0", "a step", "en", {"other": "Cook it."}, {}, 30, Place("f", 1, 1))
SMALL = po.write(
    [
        UNIT,
        Unit("f", "n", "x", "en", {"one": "egg", "other": "eggs"}, {}, 9, Place("f"), plural=True),
    ],
    "hi",
)


@settings(max_examples=200, deadline=None)
@given(st.text(st.characters(exclude_categories=("Cs",)), min_size=1, max_size=60))
def test_any_translation_is_judged(text: str) -> None:
    for code in ("hi", "ur", "bn"):
        found = list(check_translation(UNIT, text, Reader(code, None, None), Place("x.po")))
        letters_of_it = {c for c in text if c.isalpha()}
        if code == "hi" and letters_of_it & set("αЖ中"):
            assert found


def of_yaml(text: str) -> bool:
    return not yaml.reader.Reader.NON_PRINTABLE.search(text) and not set(text) & set(
        "\r\x85\u2028\u2029"
    )


@settings(max_examples=300, deadline=None)
@given(st.text(min_size=1, max_size=40).filter(of_yaml))
def test_any_text_is_written_so_that_it_reads_back(text: str) -> None:
    for row in (f"k: {scalar(text)}", f"{{k: {scalar(text, flow=True)}, z: 1}}"):
        for loader in (yaml.BaseLoader, yaml.CBaseLoader):
            assert yaml.load(row, Loader=loader)["k"] == text


def edits() -> Iterator[tuple[str, list[Change], str]]:
    yield "a: 1 # x\n", [Change(("a",), "2")], "a: 2 # x\n"
    yield "a: 1\nb:\n  c: d\n# e\n", [Change(("b", "n"), "m")], "a: 1\nb:\n  c: d\n  n: m\n# e\n"
    yield "a: {b: c}\n", [Change(("a", "d"), "e, f")], 'a: {b: c, d: "e, f"}\n'
    yield "a: 1", [Change(("b", "c"), "d")], "a: 1\nb:\n  c: d\n"
    yield "a: 1\r\nb: 2\r\n", [Change(("c",), "d", after="a")], "a: 1\r\nc: d\r\nb: 2\r\n"
    yield "a: []\n", [Change(("a", 0), {"x": "y"})], "a: \n  - x: y\n"
    yield "a:\n  b: 1\n  c: 2\n", [Change(("a",), {"b": "3", "c": "2"})], "a:\n  b: 3\n  c: 2\n"
    yield 'a: "b"\n', [Change(("a",), "c: d")], 'a: "c: d"\n'


@pytest.mark.parametrize(("text", "changes", "wanted"), list(edits()))
def test_edits_touch_nothing_else(text: str, changes: list[Change], wanted: str) -> None:
    assert edit(text, "x.yaml", changes).value == wanted


def test_what_cannot_be_edited_is_left_alone() -> None:
    made = edit("a: |\n  long\n  text\n", "x.yaml", [Change(("a",), "b")])
    assert made.value is None and made.diagnostics[0].kind == "edit-unsafe"


def test_scripts_of_languages() -> None:
    # ISO 15924; Unicode CLDR's likely subtags
    found = {code: set(scripts_of(code)) for code in ("hi", "mr", "bn", "ta", "te", "ur", "en")}
    assert found == {
        "hi": {"Deva"},
        "mr": {"Deva"},
        "bn": {"Beng"},
        "ta": {"Taml"},
        "te": {"Telu"},
        "ur": {"Arab"},
        "en": {"Latn"},
    }
