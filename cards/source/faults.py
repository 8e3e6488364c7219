"""Pydantic's faults as diagnostics with places."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from cards.diagnostics.diagnostic import Diagnostic, error
from cards.diagnostics.nearest import did_you_mean, nearest
from cards.source.nodes import Path, Tree

M = TypeVar("M", bound=BaseModel)


def validate(
    model: type[M], tree: Tree, context: dict[str, Any] | None = None
) -> tuple[M | None, list[Diagnostic]]:
    """The tree as ``model``, or None with every fault found."""
    try:
        return model.model_validate(tree.value, context=context), []
    except ValidationError as trouble:
        found = trouble.errors(include_url=False, include_context=True)
        return None, [_diagnostic(e, tree, model) for e in found if not _misspelt(e, found)]


def _misspelt(found: Any, others: list[Any]) -> bool:
    """True for a missing key that stands there misspelt: one slip, one message."""
    if found["type"] != "missing":
        return False
    *level, name = found["loc"]
    written = [
        str(o["loc"][-1])
        for o in others
        if o["type"] == "extra_forbidden" and list(o["loc"][:-1]) == level
    ]
    return any(nearest(word, (name,)) for word in written)


def _diagnostic(found: Any, tree: Tree, model: type[BaseModel]) -> Diagnostic:
    path: Path = tuple(found["loc"])
    kind = found["type"]
    if kind == "ours":
        ctx = found["ctx"]
        return error(tree.place(_real(path, tree)), ctx["kind"], ctx["message"], ctx["hint"])
    name = str(path[-1]) if path else ""
    if kind == "extra_forbidden":
        return error(
            tree.key(path),
            "key-unknown",
            f'"{name}" is not a key here',
            did_you_mean(
                name,
                _keys_at(path, model),
                f"known here: {', '.join(sorted(_keys_at(path, model)))}",
            ),
        )
    if kind == "missing":
        return error(
            tree.key(path[:-1]),
            "key-missing",
            f'"{name}" is missing here',
            f"add a line {name}: ...",
        )
    if kind in ("string_too_short", "string_type") and _value(path, tree) in (None, ""):
        return error(
            tree.key(path),
            "value-missing",
            f'"{name}" is empty',
            "write it after the colon, or take the line out",
        )
    if kind == "string_too_short":
        return error(
            tree.place(path), "value-wrong", f'"{name}" is too short', "say it in a few words"
        )
    if kind == "list_type":
        return error(
            tree.key(path),
            "value-wrong",
            f'"{name}" should be a list',
            "begin each line below it with a dash and a space",
        )
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return error(
            tree.place(path),
            "value-wrong",
            "keys are expected here",
            "write key: value lines below the dash",
        )
    return error(tree.place(path), "value-wrong", f'"{name}" cannot be this: {found["msg"]}')


def _real(path: Path, tree: Tree) -> Path:
    """The path in the file: language lines gathered into ``words`` stand one level up."""
    if path and path[-1] == "words" and path not in tree.places:
        return path[:-1]
    return path


def _value(path: Path, tree: Tree) -> Any:
    value: Any = tree.value
    for step in path:
        try:
            value = value[step]
        except (KeyError, IndexError, TypeError):
            return None
    return value


def _keys_at(path: Path, model: type[BaseModel]) -> set[str]:
    """The keys known at the mapping that holds ``path``."""
    current: Any = model
    for step in path[:-1]:
        if isinstance(step, int):
            continue
        field = current.model_fields.get(step)
        if field is None:
            break
        current = _inner_model(field.annotation) or current
    return {name for name in current.model_fields if name not in ("words", "as_needed")}


def _inner_model(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _inner_model(inner)
        if found:
            return found
    return None
