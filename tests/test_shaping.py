"""Hard words of every script, set by us and by HarfBuzz's own program."""

from __future__ import annotations

import json
import shutil
import subprocess

import pytest

from cards.batch.kit import Kit
from cards.text.bidi import levels_of, reads_leftward
from cards.text.shape import Shaped, shape
from tests.hard_words import HARD

CASES = [*HARD.items(), ("Deva", ("mr", HARD["Deva"][1]))]
NAMES = [f"{script}-{language}" for script, (language, _) in CASES]


def shaped(word: str, kit: Kit, weight: str, language: str) -> tuple[Shaped, ...]:
    levels = levels_of(word, reads_leftward(language))
    return shape(word, kit.book, weight, language, levels)


def ours(piece: Shaped) -> list[tuple[int, int, int]]:
    """Glyphs from left to right, each with its place in font units."""
    found: list[tuple[int, int, int]] = []
    pen = 0
    for cluster in piece.clusters[::-1] if piece.level % 2 else piece.clusters:
        found += [(glyph, pen + x, y) for glyph, x, y in cluster.glyphs]
        pen += cluster.advance
    return found


def by_program(
    words: list[str], piece: Shaped, script: str, language: str, *more: str
) -> list[list[tuple[int, int, int]]]:
    """The same from hb-shape, a word a line."""
    if shutil.which("hb-shape") is None:
        pytest.skip("hb-shape is not installed")
    axes = ",".join(f"{tag}={place}" for tag, place in piece.face.axes)
    command = [
        "hb-shape",
        f"--font-file={piece.face.path}",
        "--text-file=-",
        "--output-format=json",
        "--no-glyph-names",
        f"--script={script}",
        f"--language={language}",
        f"--direction={'rtl' if piece.level % 2 else 'ltr'}",
        *([f"--variations={axes}"] if axes else []),
        *more,
    ]
    told = subprocess.run(
        command, input="\n".join(words), capture_output=True, check=True, timeout=60, text=True
    )
    found: list[list[tuple[int, int, int]]] = []
    for line in told.stdout.splitlines():
        pen = 0
        glyphs: list[tuple[int, int, int]] = []
        for one in json.loads(line):
            glyphs.append((one["g"], pen + one["dx"], one["dy"]))
            pen += one["ax"]
        found.append(glyphs)
    return found


@pytest.mark.parametrize("weight", ["regular", "bold"])
@pytest.mark.parametrize(("script", "case"), CASES, ids=NAMES)
def test_glyphs_and_places_are_those_of_harfbuzz(
    script: str, case: tuple[str, tuple[str, ...]], weight: str, kit: Kit
) -> None:
    language, words = case
    assert len(set(words)) >= 60
    pieces = {word: shaped(word, kit, weight, language) for word in words}
    whole = [word for word in words if len(pieces[word]) == 1]
    assert len(whole) == len(words)
    first = pieces[words[0]][0]
    got = by_program(list(words), first, script, language, "--features=-dlig")
    differing = [
        word
        for word, theirs in zip(words, got, strict=True)
        if not alike(ours(pieces[word][0]), theirs)
    ]
    assert differing == []


def alike(one: list[tuple[int, int, int]], other: list[tuple[int, int, int]]) -> bool:
    """The same glyphs at the same places, but for what versions round in variable fonts."""
    return [g for g, _, _ in one] == [g for g, _, _ in other] and all(
        abs(a - b) <= ROUNDING
        for left, right in zip(one, other, strict=True)
        for a, b in zip(left[1:], right[1:], strict=True)
    )


ROUNDING = 1
"""Font units, of which an em has a thousand."""


@pytest.mark.parametrize(("script", "case"), CASES, ids=NAMES)
def test_the_bare_characters_look_otherwise(
    script: str, case: tuple[str, tuple[str, ...]], kit: Kit
) -> None:
    """The control: what is not shaped is not what we print."""
    language, words = case
    same = 0
    for word in words:
        piece = shaped(word, kit, "regular", language)[0]
        bare = [piece.face.shaper.get_nominal_glyph(ord(c)) for c in word]
        same += [glyph for glyph, _, _ in ours(piece)] == bare
    assert same < len(words) / 5


@pytest.mark.parametrize(("script", "case"), CASES, ids=NAMES)
def test_texts_come_back_from_their_clusters(
    script: str, case: tuple[str, tuple[str, ...]], kit: Kit
) -> None:
    language, words = case
    for word in words:
        assert "".join(piece.text for piece in shaped(word, kit, "bold", language)) == word


@pytest.mark.parametrize(("script", "case"), CASES, ids=NAMES)
@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_ink_stays_within_the_line(
    script: str, case: tuple[str, tuple[str, ...]], weight: str, kit: Kit
) -> None:
    """The deepest sign of a line does not reach the highest of the next; nor is room wasted."""
    language, words = case
    leading, ascent = kit.book.metrics(script)
    highest = lowest = 0.0
    for word in words:
        for piece in shaped(word, kit, weight, language):
            for glyph, _, y in ours(piece):
                extents = piece.face.shaper.get_glyph_extents(glyph)
                em = piece.face.units_per_em
                highest = max(highest, (y + extents.y_bearing) / em)
                lowest = min(lowest, (y + extents.y_bearing + extents.height) / em)
    assert highest <= ascent + TOUCH
    assert highest - lowest <= leading + TOUCH
    assert highest - lowest >= leading - WASTE


TOUCH = 0.05
"""Ems by which the highest sign may touch the lowest of the line above: half a point at 10 pt."""

WASTE = 0.15
"""Ems that a line may be higher than its script needs."""
