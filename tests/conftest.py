"""What the tests share: the checkout's own kit, and the demo recipes taken through all stages."""

from __future__ import annotations

from pathlib import Path

import pytest

from cards.batch.kit import Kit, open_kit
from cards.batch.stages import Run, run_file, run_text
from cards.diagnostics.diagnostic import Diagnostic
from cards.pdf.paint import paint
from cards.source.workspace import Workspace, open_workspace

ROOT = Path(__file__).resolve().parent.parent
DEMO_FILES = open_workspace(ROOT).recipe_files()


@pytest.fixture(scope="session")
def workspace() -> Workspace:
    return open_workspace(ROOT)


@pytest.fixture(scope="session")
def kit(workspace: Workspace) -> Kit:
    result = open_kit(workspace)
    assert result.value is not None, result.diagnostics
    return result.value


@pytest.fixture(scope="session")
def demos(workspace: Workspace, kit: Kit) -> dict[str, Run]:
    return {p.stem: run_file(p, workspace, kit) for p in workspace.recipe_files()}


@pytest.fixture(scope="session")
def pdfs(demos: dict[str, Run]) -> dict[str, bytes]:
    return {
        name: paint(run.pages, run.sources) for name, run in demos.items() if run.pages is not None
    }


PLAIN = """\
recipe: 1
title: {en: Soft rice, hi: नरम चावल}
ages: 6-23 months
makes: 2 cups (500 g)
ingredients:
  - 6 tbsp rice
  - 3 tbsp moong dal
  - 2 cups water
  - 1 tbsp ghee
steps:
  - do: boil
    use: rice, moong dal, water, ghee
    time: 20 minutes
    flame: low
  - do: mash
    use: all
"""
"""A sound recipe to spoil in one place at a time."""


class Bench:
    """Runs recipe texts and tells what was said."""

    def __init__(self, kit: Kit) -> None:
        self.kit = kit

    def run(self, text: str) -> Run:
        return run_text(text, "recipes/x.yaml", self.kit)

    def said(self, text: str) -> list[Diagnostic]:
        return list(self.run(text).diagnostics)

    def kinds(self, text: str) -> list[str]:
        return [d.kind for d in self.said(text)]


@pytest.fixture(scope="session")
def bench(kit: Kit) -> Bench:
    return Bench(kit)
