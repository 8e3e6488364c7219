"""Placing and painting many distinct two-sided bilingual cards, beside what others take.

Every figure is of a process of its own, and of the processor's time, which other work on the
machine sways little. A card is composed before the clock starts; what was kept of its texts while
composing is forgotten, so that each is set anew.
"""

from __future__ import annotations

import io
import itertools
import json
import math
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import zlib
from collections.abc import Iterator, Sequence
from pathlib import Path

import pypdf

from cards.batch import stages
from cards.card.model import Card, CardMeta
from cards.diagnostics.diagnostic import Result
from cards.layout.pages import Pages
from cards.layout.place import place
from cards.pdf.paint import Binding, paint
from cards.source.workspace import PROGRAMME
from tests.bench.recipes import ROOT, distinct, opened, peak_kib

SIZES = (500, 1_000, 2_000, 5_000)
"""How many cards are made where no count is given."""

RIVALS = 1_000
"""How many cards others set, at most; the slowest a tenth of them."""

RIVAL_NAMES = (
    "plain",
    "typst-placed",
    "typst-flow",
    "typst-fit",
    "weasyprint-placed",
    "weasyprint-flow",
)

META = CardMeta("All cards", "", "en", "", "", "")


def cards_report(counts: Sequence[int]) -> None:
    """Print the table."""
    print("ours, a card: milliseconds of placing and of painting, kB; most memory")
    for how in ("separate", "together"):
        found = [_apart("ours", how, str(count)) for count in counts]
        for one in found:
            print(
                f"{how:>9} {one['count']:>5.0f}: {one['place']:>5.2f} + {one['paint']:>5.2f} ms,"
                f" {one['bytes'] / 1000:>5.1f} kB, {one['peak'] / 1024:>4.0f} MiB",
                flush=True,
            )
        if len(found) > 1:
            growth = exponent(
                [one["count"] for one in found],
                [one["count"] * (one["place"] + one["paint"]) for one in found],
            )
            print(f"{how:>9} time grows with the number of cards to the power of {growth:.3f}")
    most = min(RIVALS, max(counts))
    halves = [_begun("ours", "separate", str(most // 2)) for _ in range(2)]
    both = [json.loads(half.communicate()[0]) for half in halves]
    beside = " and ".join(f"{half['place'] + half['paint']:.2f}" for half in both)
    print(f"two processes side by side, {most // 2} cards each: {beside} ms a card")
    print(f"deflate of the same bytes: {_apart('deflate', str(most // 5))['ms']:.2f} ms a card")
    print(f"one card, a new process: {_cold():.2f} s of the processor")
    for name in RIVAL_NAMES:
        slow = name.startswith(("weasyprint", "typst-fit"))
        one = _apart("rival", name, str(most // 10 if slow else most))
        told = one.get("skipped") or (
            f"{one['ms']:>7.2f} ms a card ({one['count']:.0f} cards), {one['bytes'] / 1000:.1f} kB,"
            f" {one['peak'] / 1024:.0f} MiB"
        )
        print(f"{name:>18} {told}", flush=True)


def exponent(counts: Sequence[float], times: Sequence[float]) -> float:
    """The slope of log time over log count, by least squares."""
    logs = [[math.log(value) for value in values] for values in (counts, times)]
    return statistics.linear_regression(*logs).slope


def one(what: str, *more: str) -> dict[str, object]:
    """A figure, found in this process."""
    if what == "ours":
        return dict(_ours(more[0], int(more[1])))
    if what == "deflate":
        return {"ms": _deflate(int(more[0]))}
    from tests.bench.rivals import measured

    return measured(more[0], [pages for _, pages, _ in _placed(int(more[1]))])


def _composed() -> Iterator[tuple[Card, dict[str, str]]]:
    """Cards with their sources, none placed yet; there is no end of them."""
    workspace, kit, _ = opened(ROOT)
    texts = [path.read_text(encoding="utf-8") for path in workspace.recipe_files()]
    # those whose second language stands in a file of its own are left out
    texts = [text for text in texts if "  hi: " in text]
    stages.place = lambda *given: Result(None)
    for number in itertools.count():
        run = stages.run_text(distinct(texts[number % len(texts)], number), f"r{number}.yaml", kit)
        assert run.card is not None, run.diagnostics
        yield run.card, run.sources


def _placed(count: int) -> Iterator[tuple[float, Pages, dict[str, str]]]:
    """Cards as pages, with the seconds that placing took; sides that are too full left out.

    Nor do cards count that run on to a third side: others set two.
    """
    _, kit, _ = opened(ROOT)
    left = count
    for card, sources in _composed():
        started = time.process_time()
        pages = place(card, kit.layout, kit.book).value
        taken = time.process_time() - started
        if pages is not None and len(pages.pages) == 2:
            yield taken, pages, sources
            left -= 1
        if not left:
            return


def _ours(how: str, count: int) -> dict[str, float]:
    binding = Binding()
    placing = painting = 0.0
    size = 0
    for number, (taken, pages, sources) in enumerate(_placed(count + 12)):
        started = time.process_time()
        if number < 12:
            paint(pages, sources)  # warm, as the others are
            continue
        placing += taken
        if how == "together":
            binding.add(pages, sources)
        else:
            size += len(paint(pages, sources))
        painting += time.process_time() - started
    if how == "together":
        started = time.process_time()
        size = len(binding.bound(META))
        painting += time.process_time() - started
    each = {"place": placing * 1000, "paint": painting * 1000, "bytes": float(size)}
    return {name: value / count for name, value in each.items()} | {
        "count": float(count),
        "peak": peak_kib(),
    }


def _deflate(count: int) -> float:
    """Milliseconds a card of deflating what the streams of a file together hold."""
    binding = Binding()
    for _, pages, sources in _placed(count):
        binding.add(pages, sources)
    reader = pypdf.PdfReader(io.BytesIO(binding.bound(META)))
    objects = [reader.get_object(n) for n in range(1, reader.trailer["/Size"])]
    streams = [o.get_data() for o in objects if isinstance(o, pypdf.generic.StreamObject)]
    started = time.process_time()
    for data in streams:
        zlib.compress(data, 9)
    return (time.process_time() - started) / count * 1000


def _cold() -> float:
    """Processor seconds of the command for one recipe, the least of five."""
    taken = []
    with tempfile.TemporaryDirectory() as folder:
        recipes = Path(folder) / "recipes"
        recipes.mkdir()
        for name in (PROGRAMME, "pumpkin-rice-moong.yaml"):
            shutil.copy(ROOT / "recipes" / name, recipes)
        call = [sys.executable, "-m", "cards", "make"]
        for _ in range(5):
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            environment = {**os.environ, "PYTHONPATH": str(ROOT)}
            subprocess.run(call, cwd=folder, env=environment, check=True, capture_output=True)
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            taken.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return min(taken)


def _begun(*what: str) -> subprocess.Popen[str]:
    call = [sys.executable, "-m", "tests.bench", "one", *what]
    return subprocess.Popen(call, cwd=ROOT, stdout=subprocess.PIPE, text=True)


def _apart(*what: str) -> dict[str, float]:
    told, _ = _begun(*what).communicate()
    found: dict[str, float] = json.loads(told.splitlines()[-1])
    return found
