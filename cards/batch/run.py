"""What came of one recipe. A module of its own, so that a run of last time needs no stages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from cards.diagnostics.diagnostic import Diagnostic, has_errors

if TYPE_CHECKING:
    from cards.card.model import Card
    from cards.layout.pages import Pages
    from cards.nutrition.analysis import Analysis
    from cards.safety.judge import Findings
    from cards.source.recipe import Recipe


@dataclass(frozen=True, slots=True)
class Run:
    """What each stage gave for one file. A stage that was not reached is None."""

    name: str
    text: str
    recipe: Recipe | None
    analysis: Analysis | None
    findings: Findings | None
    card: Card | None
    pages: Pages | None
    diagnostics: tuple[Diagnostic, ...]
    sides: Mapping[str, str] = field(default_factory=dict)
    """Texts of the recipe's side files, by name."""

    @property
    def sources(self) -> dict[str, str]:
        """Texts of the files that messages may point into, by name."""
        return {self.name: self.text, **self.sides}

    @property
    def stopped(self) -> bool:
        """True when an error keeps the card from being made."""
        return self.pages is None or has_errors(self.diagnostics)
