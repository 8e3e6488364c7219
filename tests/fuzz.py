"""Coverage-guided fuzzing: ``python -m tests.fuzz [SECONDS] [TARGET]`` (needs the extra ``fuzz``).

Targets: recipe (the whole flow), reader, side, programme, words, foods, needs, layout, fonts.

Whatever breaks an answer is written to .cache/fuzz/TARGET/found/, once for each place it
breaks at, and the search goes on. Inputs that reach something new are kept in
.cache/fuzz/TARGET/corpus/ and are where the next run begins.
"""

from __future__ import annotations

import hashlib
import random
import re
import sys
import time
import traceback
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["cards"]):
    from cards.batch.kit import Kit, _font_book, open_kit
    from cards.batch.stages import run_text, sheet_of
    from cards.diagnostics.diagnostic import Result
    from cards.foods.own import own_table
    from cards.foods.units import Measures
    from cards.layout.layoutfile import load_layout
    from cards.nutrition.own_needs import read_needs
    from cards.pdf.paint import paint
    from cards.source.programme import Programme, read_programme
    from cards.source.read import read
    from cards.source.sides import read_side
    from cards.source.vocabulary import ENDS, KITCHEN, PREPS, SEASONS, SIZES_MM, actions, vocabulary
    from cards.source.workspace import open_workspace
    from cards.words.language import load_language

from tests.answers import owed
from tests.conftest import PLAIN, ROOT

SLOW = 5.0
"""Seconds after which an answer counts as a hang."""

SEEDS = ROOT / "tests" / "seeds"
NAME = "recipes/x.yaml"


def sound_kit() -> Kit:
    """The checkout's own kit."""
    kit = open_kit(open_workspace(ROOT)).value
    assert kit is not None
    return kit


KIT = sound_kit()


def answered(result: Result[object], texts: Mapping[str, str]) -> None:
    """Fail where a result has neither value nor reason, or a message lacks something."""
    assert result.value is not None or result.diagnostics, "no value and no reason"
    lacking = owed(result.diagnostics, texts)
    assert not lacking, lacking[0]


def flow(text: str, kit: Kit, name: str = NAME, sides: Mapping[str, str] | None = None) -> None:
    """A recipe through every stage, to the bytes of its card and sheet."""
    run = run_text(text, name, kit, sides)
    assert run.pages is not None or run.diagnostics, "no card and no reason"
    lacking = owed(
        run.diagnostics, {"programme.yaml": "", **kit.sources, **(sides or {}), name: text}
    )
    assert not lacking, lacking[0]
    sheet = sheet_of(run, kit)
    if run.pages is not None and not run.stopped:
        assert paint(run.pages).startswith(b"%PDF-")
        if sheet is not None:
            assert paint(sheet).startswith(b"%PDF-")


def recipe(text: str) -> None:
    """The whole flow."""
    flow(text, KIT)


def reader(text: str) -> None:
    """The reader alone."""
    answered(read(text, NAME, Programme()), {NAME: text, "programme.yaml": ""})


def side(text: str) -> None:
    """A side file, alone and with its recipe."""
    name = "recipes/x.hi.yaml"
    answered(read_side(text, name), {name: text})
    answered(read(SPOKEN, NAME, Programme(), {name: text}), {NAME: SPOKEN, name: text})


SPOKEN = PLAIN.replace("{en: Soft rice, hi: नरम चावल}", "Soft rice").replace(
    "    flame: low", "    flame: low\n    en: Boil it all till soft."
)


def programme(text: str) -> None:
    """A programme file, and a card made with it."""
    result = read_programme(text, "programme.yaml")
    answered(result, {"programme.yaml": text})
    if result.value is not None:
        made = replace(result.value, languages=KIT.programme.languages)
        flow(PLAIN, replace(KIT, programme=made, measures=Measures(made.measures_ml)))


def words(text: str) -> None:
    """A words file, and a card made with it."""
    result = load_language(text, "words.yaml", "en")
    answered(result, {"words.yaml": text})
    if result.value is not None:
        flow(RICH, replace(KIT, languages=(result.value, KIT.languages[1])))


RICH = (SEEDS / "recipe-everything.yaml").read_text(encoding="utf-8")


def foods(text: str) -> None:
    """A programme's foods, and a card made with them."""
    result = own_table(text, "recipes/foods.csv", KIT.table)
    answered(result, {"recipes/foods.csv": text})
    if result.value is not None:
        flow(PLAIN.replace("moong dal", "mola"), replace(KIT, table=result.value))
        flow(PLAIN, replace(KIT, table=result.value))


def needs(text: str) -> None:
    """A programme's needs, and a sheet made with them."""
    result = read_needs(text, "needs.yaml")
    answered(result, {"needs.yaml": text})
    for profile in (result.value or {}).values():
        flow(PLAIN, replace(KIT, needs=profile))


def layout(text: str) -> None:
    """A layout, and a card placed by it."""
    result = load_layout(text, "layout.yaml")
    answered(result, {"layout.yaml": text})
    if result.value is not None:
        flow(PLAIN, replace(KIT, layout=result.value))


def fonts(text: str) -> None:
    """A list of fonts, and a card set with them."""
    result = _font_book(text, "fonts.yaml", ROOT / "fonts")
    answered(result, {"fonts.yaml": text})
    if result.value is not None:
        flow(PLAIN, replace(KIT, book=result.value))


TARGETS: dict[str, tuple[Callable[[str], None], tuple[Path, ...]]] = {
    "recipe": (
        recipe,
        (*sorted(ROOT.glob("recipes/*.yaml")), *sorted(SEEDS.glob("recipe-*.yaml"))),
    ),
    "reader": (
        reader,
        (*sorted(ROOT.glob("recipes/*.yaml")), *sorted(SEEDS.glob("recipe-*.yaml"))),
    ),
    "side": (side, tuple(sorted(SEEDS.glob("side-*.yaml")))),
    "programme": (programme, (ROOT / "recipes/programme.yaml", *sorted(SEEDS.glob("prog*.yaml")))),
    "words": (words, (ROOT / "templates/words/en.yaml", ROOT / "templates/words/hi.yaml")),
    "foods": (foods, tuple(sorted(SEEDS.glob("foods*.csv")))),
    "needs": (needs, (*sorted(SEEDS.glob("needs*.yaml")),)),
    "layout": (layout, (ROOT / "templates/layouts/hand-card.yaml",)),
    "fonts": (fonts, (ROOT / "fonts/fonts.yaml",)),
}


def lexicon() -> list[str]:
    """Words and signs of the formats, and what is known to break readers."""
    seeds = "\n".join(p.read_text(encoding="utf-8") for _, ps in TARGETS.values() for p in ps)
    keys = re.findall(r"[a-z-]+(?=:)", seeds)
    own = [*ENDS, *PREPS, *SEASONS, *KITCHEN, *SIZES_MM, *actions(), *vocabulary().measures]
    odd = ["0", "-1", "1/0", "1e9", "9" * 30, "½", "1 1/2", "2-3", "7 to 8", "half of the", "nan"]
    odd += ["the rest of the", "as needed", "to taste", "all", "ghee", "rice", "water", "or", "~"]
    odd += [
        "\x00",
        "\u202e",
        "\u200b",
        "\ufeff",
        "\u2028",
        "\x85",
        "\r",
        "\t",
        "é",
        "क्ष",
        "軟",
        "😀",
    ]
    odd += ["[", "]", "{", "}", ": ", "- ", "#", "&a", "*a", "!x", "<<: ", "---\n", '"', "'", "|\n"]
    odd += ["{{ days }}", "{% if time %}", "{% endif %}", "../", "/etc/passwd", "inf", "( ", ")"]
    return [*dict.fromkeys(keys), *own, *odd]


class Mutator:
    """Changes lines and words as an author might, and bytes as a broken disk might."""

    def __init__(self, seeds: tuple[Path, ...]) -> None:
        self.words = lexicon()
        self.lines = [
            row for p in seeds for row in p.read_text(encoding="utf-8").splitlines() if row.strip()
        ]

    def __call__(self, data: bytes, most: int, seed: int) -> bytes:
        """One to four changes of ``data``."""
        dice = random.Random(seed)
        text = data.decode("utf-8", errors="replace")
        for _ in range(dice.choice((1, 1, 2, 4))):
            text = self._change(text, dice)
        changed = text.encode("utf-8", errors="replace")
        if dice.random() < 0.15:
            changed = atheris.Mutate(changed, min(most, len(changed) + 64))
        return changed[:most]

    def _change(self, text: str, dice: random.Random) -> str:
        rows = text.split("\n")
        n = dice.randrange(len(rows))
        row = rows[n]
        what = dice.randrange(10)
        if what == 0:
            del rows[n]
        elif what == 1:
            rows.insert(n, dice.choice(self.lines))
        elif what == 2:
            rows.insert(dice.randrange(len(rows) + 1), row)
        elif what == 3:
            rows[n] = dice.choice(("  ", " ", "- ", "    - ")) + row
        elif what == 4:
            rows[n] = row[1:] if row[:1] in " -" else row
        elif what == 5:
            other = dice.choice(self.lines)
            key, _, old = row.partition(":")
            rows[n] = (
                f"{key}:{other.partition(':')[2] or ' ' + other.strip('- ')}" if old else other
            )
        elif what == 6:
            cut = dice.randrange(len(row) + 1)
            rows[n] = row[:cut] + dice.choice(self.words) + row[cut:]
        else:
            parts = re.split(r"(\W+)", row)
            k = dice.randrange(len(parts))
            if parts[k].isdigit() and dice.random() < 0.7:
                parts[k] = str(dice.choice((0, 1, 2, 3, 7, 12, 40, 100, 999, 10**6)))
            else:
                parts[k] = dice.choice(self.words)
            rows[n] = "".join(parts)
        return "\n".join(rows)


class Watch:
    """Runs a target, counts, and keeps whatever breaks it."""

    def __init__(self, name: str, folder: Path, seconds: float) -> None:
        self.target = TARGETS[name][0]
        self.found = folder / "found"
        self.found.mkdir(parents=True, exist_ok=True)
        self.until = time.monotonic() + seconds
        self.seen: Counter[str] = Counter()
        self.runs = 0
        self.slowest = 0.0

    def __call__(self, data: bytes) -> None:
        """One input. A fault is written down the first time it is met at its place."""
        text = data.decode("utf-8", errors="replace")
        started = time.monotonic()
        try:
            self.target(text)
        except Exception as trouble:
            frames = traceback.extract_tb(trouble.__traceback__)
            own = [f for f in frames if "/cards/" in f.filename] or frames
            where = f"{type(trouble).__name__} {Path(own[-1].filename).name}:{own[-1].lineno}"
            if isinstance(trouble, AssertionError):
                where += " " + re.sub(r"\d+|@?\S+:", "", str(trouble))[:40]
            self.keep(where, text)
        took = time.monotonic() - started
        self.runs += 1
        self.slowest = max(self.slowest, took)
        if took > SLOW:
            self.keep(f"slow {took:.0f} s", text)
        if time.monotonic() > self.until:
            print(f"{self.runs} inputs, slowest {self.slowest:.2f} s, found {dict(self.seen)}")
            sys.stdout.flush()
            atheris_stop()

    def keep(self, where: str, text: str) -> None:
        """Write an input down unless its fault is known."""
        self.seen[where] += 1
        if self.seen[where] > 1:
            return
        digest = hashlib.sha256(where.encode()).hexdigest()[:8]
        (self.found / f"{digest}.txt").write_text(text, encoding="utf-8", newline="")
        (self.found / f"{digest}.why").write_text(f"{where}\n{traceback.format_exc()}")
        print(f"found {where} -> {self.found / digest}.txt", flush=True)


def atheris_stop() -> None:
    """End the run; libFuzzer has no other way out that keeps its corpus."""
    raise KeyboardInterrupt


def main() -> None:
    """Fuzz one target."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 60.0
    name = sys.argv[2] if len(sys.argv) > 2 else "recipe"
    if name not in TARGETS:
        sys.exit(f'"{name}" is no target; choose from {", ".join(TARGETS)}')
    folder = ROOT / ".cache" / "fuzz" / name
    corpus = folder / "corpus"
    corpus.mkdir(parents=True, exist_ok=True)
    seeds = TARGETS[name][1]
    for path in seeds:
        (corpus / f"seed-{path.name}").write_bytes(path.read_bytes())
    watch, mutator = Watch(name, folder, seconds), Mutator(seeds)
    flags = [f"-max_total_time={int(seconds)}", "-timeout=120", "-rss_limit_mb=4096"]
    flags += ["-max_len=60000", "-print_final_stats=1", "-verbosity=1", "-len_control=0"]
    atheris.Setup(
        [sys.argv[0], str(corpus), *flags], watch, custom_mutator=mutator, internal_libfuzzer=True
    )
    atheris.Fuzz()


if __name__ == "__main__":
    main()
