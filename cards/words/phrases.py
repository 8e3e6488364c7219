"""Phrases with values to fill in: what they may be made of, so that none fails on a card."""

from __future__ import annotations

from functools import lru_cache

from jinja2 import StrictUndefined, Template, TemplateSyntaxError, nodes
from jinja2.sandbox import SandboxedEnvironment

from cards.diagnostics.hidden import is_hidden
from cards.diagnostics.nearest import did_you_mean

LONGEST_PHRASE = 400
"""Characters of a phrase with its conditions; ten times what a card has room for."""

LIST_MARKS = (",", "،", "、")
"""Marks that may stand alone for a phrase, where a language lists without a word for "and"."""

_ENVIRONMENT = SandboxedEnvironment(undefined=StrictUndefined, autoescape=False)

_ALLOWED = (
    nodes.Template,
    nodes.Output,
    nodes.TemplateData,
    nodes.Name,
    nodes.Const,
    nodes.If,
    nodes.CondExpr,
    nodes.Compare,
    nodes.Operand,
    nodes.And,
    nodes.Or,
    nodes.Not,
    nodes.Concat,
    nodes.Tuple,
    nodes.List,
    nodes.Getitem,
    nodes.Slice,
    nodes.Neg,
)
"""What a phrase may be made of: values, choices and pieces of text. No loops, calls or sums."""


@lru_cache(maxsize=4_000)
def template(text: str) -> Template:
    """A phrase ready to be filled in; made once, since it is tried on loading and then used."""
    return _ENVIRONMENT.from_string(text)


def variables_of(text: str) -> frozenset[str]:
    """The names of the values that a sound phrase fills in or asks for."""
    return frozenset(node.name for node in _ENVIRONMENT.parse(text).find_all(nodes.Name))


def is_plain(text: str) -> bool:
    """Whether a text is of a length to be printed, and hides nothing."""
    return len(text) <= LONGEST_PHRASE and not any(is_hidden(c) and c != "\n" for c in text)


def template_fault(text: str, variables: tuple[str, ...]) -> tuple[str, str] | None:
    """What is wrong with a phrase that may use ``variables``, and its cure."""
    bare = not any(c.isalnum() for c in text) and text not in LIST_MARKS
    if bare or not is_plain(text):
        return (
            "this phrase is empty, far too long, or holds hidden characters",
            "write it in a few words",
        )
    if "{" not in text:  # most of a words file has nothing to fill in
        return None
    try:
        parsed = _ENVIRONMENT.parse(text)
        sound = all(_is_sure(node) for node in parsed.find_all(nodes.Node))
        unknown = {node.name for node in parsed.find_all(nodes.Name)}
    except TemplateSyntaxError as fault:
        return f"this phrase cannot be read: {fault}", "check the double braces {{ }}"
    except RecursionError:
        sound, unknown = False, set()
    if not sound:
        return (
            "this phrase does more than fill in values",
            "use only {{ name }} and {% if name %} ... {% endif %}",
        )
    for name in sorted(unknown - set(variables)):
        return (
            f'"{name}" is not known in this phrase',
            did_you_mean(name, variables, f"known: {', '.join(variables) or 'none'}"),
        )
    try:
        filled = template(text)
        for value in ("2", ""):
            filled.render(dict.fromkeys(variables, value))
    except Exception as fault:  # whatever a phrase may do wrong, it does it here and not on a card
        return f"this phrase cannot be filled in: {fault}", "compare it with the shipped one"
    return None


def _is_sure(node: nodes.Node) -> bool:
    """Whether a piece of a phrase gives a text whatever texts the values are.

    A branch that is not taken on loading may be taken on a card, so that
    what fails for some values only is refused by its form.
    """
    if isinstance(node, nodes.Getitem):
        return isinstance(node.node, nodes.Name) and isinstance(node.arg, nodes.Slice)
    if isinstance(node, nodes.Slice):
        return node.step is None and all(_is_whole(n) for n in (node.start, node.stop))
    if isinstance(node, nodes.Neg):
        return _is_whole(node)
    if isinstance(node, nodes.CondExpr):
        return node.expr2 is not None
    if isinstance(node, nodes.Compare):
        return len(node.ops) == 1 and _is_comparable(node.expr, node.ops[0])
    return isinstance(node, _ALLOWED)


def _is_whole(node: nodes.Node | None) -> bool:
    inner = node.node if isinstance(node, nodes.Neg) else node
    return inner is None or (isinstance(inner, nodes.Const) and isinstance(inner.value, int))


def _is_comparable(left: nodes.Node, operand: nodes.Operand) -> bool:
    """Equal texts, a text in a list, or a text in a text."""
    if operand.op in ("eq", "ne") or isinstance(operand.expr, nodes.Tuple | nodes.List):
        return operand.op in ("eq", "ne", "in", "notin")
    texts = isinstance(left, nodes.Name) or (
        isinstance(left, nodes.Const) and isinstance(left.value, str)
    )
    return operand.op in ("in", "notin") and isinstance(operand.expr, nodes.Name) and texts
