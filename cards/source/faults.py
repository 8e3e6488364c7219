"""Pydantic's faults as diagnostics with places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from cards.diagnostics.diagnostic import MOST, Diagnostic, error, first_of
from cards.diagnostics.nearest import did_you_mean
from cards.source.nodes import Path, Tree

M = TypeVar("M", bound=BaseModel)


def validate(
    model: type[M], tree: Tree, context: dict[str, Any] | None = None
) -> tuple[M | None, list[Diagnostic]]:
    """The tree as ``model``, or None with the faults found."""
    hollow = (path for path, value in _walk(tree.value, ()) if value is None)
    empty = list(islice(hollow, MOST + 1))
    faults = [_empty(path, tree) for path in empty]
    try:
        found = model.model_validate(tree.value, context=context)
        return (None if faults else found), list(first_of(faults))
    except ValidationError as trouble:
        told = trouble.errors(include_url=False, include_context=True)
        unknown = {e["loc"][:-1] for e in told if e["type"] == "extra_forbidden"}
        faults += islice(
            (
                _diagnostic(e, tree, model)
                for e in told
                if not _misspelt(e, unknown) and not _told(e, empty)
            ),
            MOST + 1,
        )
        return None, list(first_of(faults))


def _walk(value: Any, path: Path) -> Iterator[tuple[Path, Any]]:
    yield path, value
    entries: Iterable[tuple[str | int, Any]] = ()
    if isinstance(value, dict):
        entries = value.items()
    elif isinstance(value, list):
        entries = enumerate(value)
    for key, inner in entries:
        yield from _walk(inner, (*path, key))


def _told(found: Any, empty: list[Path]) -> bool:
    """True for a fault that an empty place has been told for already."""
    loc = tuple(step for step in found["loc"] if step != " words")
    missing = found.get("ctx", {}).get("kind") == "value-missing"
    return any(loc[: len(path)] == path or (missing and path[: len(loc)] == loc) for path in empty)


def _empty(path: Path, tree: Tree) -> Diagnostic:
    name = path[-1] if path and isinstance(path[-1], str) else "this line"
    return error(
        tree.key(path),
        "value-missing",
        f'"{name}" is empty',
        "write its text, or take the line out",
    )


def _misspelt(found: Any, unknown: set[Path]) -> bool:
    """True for a missing key beside an unknown one: one slip, one message."""
    return found["type"] == "missing" and found["loc"][:-1] in unknown


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
    if kind == "string_too_short" and _value(path, tree) == "":
        return error(
            tree.key(path),
            "value-missing",
            f'"{name}" is empty',
            "write it after the colon, or take the line out",
        )
    if kind == "string_type":
        return error(
            tree.place(path),
            "value-wrong",
            f'"{name}" should be a single text, not a list or keys',
            "write it on the same line, after the colon",
        )
    if kind == "string_too_long":
        most = found["ctx"]["max_length"]
        return error(
            tree.place(path),
            "value-wrong",
            f'"{name}" is longer than {most} characters',
            "shorten it",
        )
    if kind in ("too_short", "too_long"):
        ctx = found["ctx"]
        most = ctx.get("max_length") or f"at least {ctx.get('min_length')}"
        return error(
            tree.key(path),
            "value-wrong",
            f'"{name}" has {ctx["actual_length"] or "too many"} entries; it may have {most}',
            "take some out, or split the file in two" if kind == "too_long" else "add one",
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
    return error(
        tree.place(path),
        "value-wrong",
        f'"{name}" cannot be this: {found["msg"].lower()}',
        "compare it with the README",
    )


def _real(path: Path, tree: Tree) -> Path:
    """The path in the file: language lines gathered into ``words`` stand one level up."""
    if path and path[-1] == " words" and path not in tree.places:
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
        field = written_fields(current).get(step)
        if field is None:
            break
        current = inner_model(field.annotation) or current
    return set(written_fields(current))


def written_fields(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """A model's fields by the keys people write; those that other lines fill are left out."""
    keys = ((field.alias or name, field) for name, field in model.model_fields.items())
    return {key: field for key, field in keys if not key.startswith(" ")}


def inner_model(annotation: Any) -> type[BaseModel] | None:
    """The model in a field's type, as in ``list[StepIn]``; None where there is none."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = inner_model(inner)
        if found:
            return found
    return None
