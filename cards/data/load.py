"""Open a data file that is part of the package. Read once a process: the files never change."""

from __future__ import annotations

import csv
import io
from functools import cache
from importlib import resources
from typing import Any

import yaml


@cache
def text(name: str) -> str:
    """The text of the data file ``name``. Raises FileNotFoundError."""
    return resources.files("cards.data").joinpath(name).read_text(encoding="utf-8")


@cache
def mapping(name: str) -> dict[str, Any]:
    """The YAML data file ``name`` as a mapping."""
    loaded = yaml.load(text(name), Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    if not isinstance(loaded, dict):
        raise TypeError(f"{name} does not hold a mapping")
    return loaded


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The CSV data file ``name``, a dict a row."""
    return tuple(csv.DictReader(io.StringIO(text(name))))
