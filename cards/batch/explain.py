"""What each kind of message means, and how to mend it."""

from __future__ import annotations

import re

from cards.data import load
from cards.safety.rules import rules


def known_kinds() -> tuple[str, ...]:
    """All kinds of messages, rules among them."""
    return (*load.mapping("kinds.yaml"), *rules())


def explanation(kind: str) -> str:
    """A few lines on a kind; empty when there is none of that name."""
    rule = rules().get(kind)
    if rule is not None:
        says = re.sub(r"\{\w+\}", "...", rule.says)
        return (
            f"{kind} ({rule.severity.word}): {says}\n"
            f"cure: {rule.cure}\nrests on: {rule.source} ({rule.known})"
        )
    facts = load.mapping("kinds.yaml").get(kind)
    return f"{kind}: {facts['what']}\ncure: {facts['cure']}" if facts else ""
