"""Times the flow on many distinct recipes: ``python -m tests.bench [COUNT]``. Asserts nothing."""

from __future__ import annotations

import resource
import sys
import time
from pathlib import Path

from cards.batch.kit import open_kit
from cards.batch.stages import run_text
from cards.pdf.paint import paint
from cards.source.workspace import open_workspace


def main() -> None:
    """Print cards a second for checking and for painting, and the most memory used."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    workspace = open_workspace(Path(__file__).resolve().parent.parent)
    started = time.perf_counter()
    kit = open_kit(workspace).value
    assert kit is not None
    print(f"opening words, fonts and foods: {time.perf_counter() - started:.2f} s")
    texts = [path.read_text(encoding="utf-8") for path in workspace.recipe_files()]
    # a number in the title makes each recipe its own, so that nothing is reused whole
    distinct = [
        texts[n % len(texts)]
        .replace("title:", f"version: {n}\ntitle:", 1)
        .replace("version: 1\n", "", 1)
        for n in range(count)
    ]
    started = time.perf_counter()
    runs = [run_text(text, f"recipes/r{n}.yaml", kit) for n, text in enumerate(distinct)]
    checked = time.perf_counter() - started
    print(f"checked {count} in {checked:.2f} s: {count / checked:.0f} a second")
    started = time.perf_counter()
    size = sum(len(paint(run.pages)) for run in runs if run.pages is not None)
    painted = time.perf_counter() - started
    print(
        f"painted {count} in {painted:.2f} s: {count / painted:.0f} a second, "
        f"{size / count / 1000:.0f} kB each"
    )
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"most memory: {most:.0f} MiB")


if __name__ == "__main__":
    main()
