"""Every layout holds every demo dish, in two languages and in one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cards.batch.kit import Kit, open_kit
from cards.batch.stages import run_file
from cards.diagnostics.diagnostic import has_errors
from cards.layout.layoutfile import load_layout
from cards.layout.pages import TextItem
from cards.source.workspace import Workspace
from tests.conftest import DEMO_FILES, ROOT

LAYOUTS = sorted(p.stem for p in (ROOT / "templates" / "layouts").glob("*.yaml"))


def kit_for(workspace: Workspace, name: str, languages: tuple[str, ...]) -> Kit:
    """The checkout's kit with a layout and languages of ours."""
    kit = open_kit(workspace, name).value
    assert kit is not None
    text = (ROOT / "templates" / "layouts" / f"{name}.yaml").read_text(encoding="utf-8")
    layout = load_layout(text, "x.yaml").value
    assert layout is not None
    return replace(
        kit,
        programme=replace(kit.programme, languages=languages),
        languages=tuple(lang for code in languages for lang in kit.languages if lang.code == code),
        layout=layout.drawn(len(languages)),
    )


def test_type_too_small_for_its_distance_is_refused() -> None:
    """ANSI Z535: capitals 1/300 of the distance; 10 mm at 3 m, 44.3 pt of 0.64 em capitals."""
    text = (ROOT / "templates" / "layouts" / "hand-card.yaml").read_text(encoding="utf-8")
    far = text.replace("  small: 10", "  small: 10\n  reading_m: 3", 1)
    found = load_layout(far, "x.yaml")
    assert [d.kind for d in found.diagnostics] == ["layout-type"]
    assert "45" in found.diagnostics[0].hint
    near = load_layout(text.replace("  small: 10", "  small: 10\n  reading_m: 0.7", 1), "x.yaml")
    assert near.diagnostics == ()


@pytest.mark.parametrize("name", LAYOUTS)
def test_every_layout_places_the_demos(name: str, workspace: Workspace) -> None:
    """In two languages and in one, every demo dish stands on every layout without a fault."""
    for languages in (("en", "hi"), ("hi",), ("en",)):
        kit = kit_for(workspace, name, languages)
        for path in DEMO_FILES:
            run = run_file(path, workspace, kit)
            assert run.pages is not None, (path.stem, languages, run.diagnostics)
            assert not has_errors(run.diagnostics), (path.stem, languages, run.diagnostics)


def test_a_long_list_runs_on_and_says_so(workspace: Workspace) -> None:
    """Nothing is lost between the sides, and each says which of how many it is."""
    kit = kit_for(workspace, "pocket-card", ("en", "hi"))
    run = run_file(ROOT / "recipes" / "pumpkin-rice-moong.yaml", workspace, kit)
    assert run.pages is not None
    assert run.card is not None
    names = [page.name for page in run.pages.pages]
    assert names == ["front", "front 2", "back"]
    words = [
        " ".join(i.line.text for i in page.items if isinstance(i, TextItem))
        for page in run.pages.pages
    ]
    assert "2 of 2" in words[1]
    assert "2 में से 2" in words[1]
    whole = " ".join(words)
    for section in run.card.needs.sections:
        for row in section.rows:
            for text in row.said:
                for word in text.text.replace("*", "").split():
                    assert word in whole
