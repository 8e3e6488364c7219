"""A programme's own sets of daily needs, from its needs.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from pydantic import Field, field_validator

from cards.diagnostics.diagnostic import Result
from cards.diagnostics.nearest import did_you_mean
from cards.foods.components import components
from cards.nutrition.needs import Need, Profile
from cards.source.faults import validate
from cards.source.fields import fault
from cards.source.model import Strict
from cards.source.nodes import read_nodes

Amount = Annotated[float, Field(ge=1e-6, le=1e9)]


class NeedIn(Strict):
    """A need by age band, with the document it is from."""

    younger: Amount = Field(alias="6-8")
    middle: Amount = Field(alias="9-11")
    older: Amount = Field(alias="12-23")
    source: str = Field(min_length=3, max_length=400)
    note: str = Field(default="", max_length=400)


class ProfileIn(Strict):
    """One set of needs."""

    name: str = Field(min_length=1, max_length=120)
    needs: dict[str, NeedIn]

    @field_validator("needs")
    @classmethod
    def _tags(cls, value: dict[str, NeedIn]) -> dict[str, NeedIn]:
        for tag in value:
            if tag not in components():
                raise fault(
                    "value-wrong",
                    f'"{tag}" is not a component',
                    did_you_mean(tag, components(), "use INFOODS tagnames such as FE"),
                )
        return value


class NeedsIn(Strict):
    """A needs file."""

    needs: str
    profiles: dict[str, ProfileIn] = Field(max_length=20)

    @field_validator("needs")
    @classmethod
    def _format(cls, value: str) -> str:
        if value != "1":
            raise fault("format-unknown", f'"{value}" is no format version', "write needs: 1")
        return value


def read_needs(text: str, file: str) -> Result[Mapping[str, Profile]]:
    """The profiles of a needs file by key."""
    nodes = read_nodes(text, file)
    if nodes.value is None or nodes.failed:
        return Result(None, nodes.diagnostics)
    model, faults = validate(NeedsIn, nodes.value)
    if model is None:
        return Result(None, tuple(faults))
    return Result(
        {
            key: Profile(
                key,
                p.name,
                {
                    tag: Need(
                        tag,
                        {"6-8": n.younger, "9-11": n.middle, "12-23": n.older},
                        n.source,
                        "programme",
                        n.note,
                    )
                    for tag, n in p.needs.items()
                },
            )
            for key, p in model.profiles.items()
        }
    )
