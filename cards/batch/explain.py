"""What each kind of message means, and how to mend it."""

from __future__ import annotations

import re

from cards.data import load
from cards.safety.rules import rules


def known_kinds() -> tuple[str, ...]:
    """All kinds of messages, rules among them."""
    return (*load.mapping("kinds.yaml"), *rules())


def list_of_kinds() -> str:
    """A line a kind, with what it means."""
    kinds = load.mapping("kinds.yaml")
    told = {kind: kinds[kind]["what"] if kind in kinds else _says(kind) for kind in known_kinds()}
    widest = max(len(kind) for kind in told)
    return "\n".join(f"{kind:{widest}}  {what}" for kind, what in sorted(told.items()))


def _says(rule: str) -> str:
    """What a safety rule says, with its blanks left open."""
    return re.sub(r"\{\w+\}", "...", rules()[rule].says)


def explanation(kind: str) -> str:
    """A few lines on a kind; empty when there is none of that name."""
    rule = rules().get(kind)
    if rule is not None:
        return (
            f"{kind} ({rule.severity.word}): {_says(kind)}\n"
            f"cure: {rule.cure}\nrests on: {rule.source} ({rule.known})"
        )
    facts = load.mapping("kinds.yaml").get(kind)
    return f"{kind}: {facts['what']}\ncure: {facts['cure']}" if facts else ""
