"""What has changed in the files a page rests on, as a person would tell it."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from cards.batch.kit import Kit
from cards.batch.run import Run
from cards.batch.stages import run_text
from cards.card.changes import Change, changes
from cards.source.day import DayFile, Planned, read_day
from cards.source.grounds import DAY, FOODS, SESSION, Grounds, Part
from cards.source.nodes import read_nodes
from cards.source.session import Session, read_session

MOST_TOLD = 12
"""Changes told of one file of words, or of a table; then how many more there are."""


@dataclass(frozen=True, slots=True)
class Changed:
    """What is other than it was, and why dishes on the paper should be called back."""

    changes: tuple[Change, ...]
    recall: tuple[str, ...]


def page_changes(before: Grounds, now: Grounds, kit: Kit) -> Changed:
    """The differences, file by file in the order in which they count."""
    old, new = ({part.role: part for part in grounds.parts} for grounds in (before, now))
    found: list[Change] = []
    recall: list[str] = []
    for role in dict.fromkeys((*old, *new)):
        one, other = old.get(role), new.get(role)
        same = one is not None and other is not None and one.text == other.text
        if not same and not role.startswith(("side ", "recipe ")):
            found += _differing(role, one, other, kit)
    for role in dict.fromkeys((*old, *new)):
        if role.startswith("recipe ") and _dish(old, role) != _dish(new, role):
            if before.page == SESSION and (role not in old or role not in new):
                continue  # its own file tells which dishes came and went
            told = tuple(_dish_changes(role, old, new, kit))
            found += told
            recall += [
                f"a warning was added to {role.removeprefix('recipe ')}: {change.now}"
                for change in told
                if change.block.endswith("warnings") and change.now
            ]
    return Changed(tuple(found), tuple(recall))


def _differing(role: str, one: Part | None, other: Part | None, kit: Kit) -> Iterator[Change]:
    """One file that is no recipe."""
    before, now = (part.text if part else "" for part in (one, other))
    path = (one or other or Part("", "", "")).path
    programme = kit.programme
    if role == SESSION:
        sessions = (read_session(text, path, programme).value for text in (before, now))
        yield from _told_apart(*(_session(session) if session else {} for session in sessions))
    elif role == DAY:
        days = (read_day(text, path, programme).value for text in (before, now))
        yield from _told_apart(*(_day(day) if day else {} for day in days))
    else:
        read = _rows if role == FOODS else _values
        entries = ({(role, key): text for key, text in read(t)} for t in (before, now))
        told = list(_told_apart(*entries))
        yield from told[:MOST_TOLD]
        if len(told) > MOST_TOLD:
            yield Change(role, "", f"and {len(told) - MOST_TOLD} more")


Told = Mapping[tuple[str, str], str]
"""What a file says, by its block and what it is said of."""


def _told_apart(before: Told, now: Told) -> Iterator[Change]:
    for block, of in dict.fromkeys((*before, *now)):
        one, other = before.get((block, of), ""), now.get((block, of), "")
        if one != other:
            label = f"{of}: " if of else ""
            yield Change(block, one and f"{label}{one}", other and f"{label}{other}")


def _session(session: Session) -> Told:
    """What a session file says, in plain words."""
    price = session.price
    said = {
        ("title", ""): " / ".join(session.title.values()),
        ("date", ""): f"{session.starts:%Y-%m-%d, %H:%M}",
        ("place", ""): " / ".join(session.place.values()),
        ("people", "trainees"): str(session.trainees),
        ("people", "groups that cook"): str(session.groups),
        ("people", "children"): str(session.children) if session.children else "",
        ("copies", "to spare"): str(session.spare),
        ("print", "turned about"): f"{session.flip} edge",
        ("print", "price of a sheet"): f"{price.amount:.2f} {price.currency}" if price else "",
    }
    for name, _ in session.recipes:
        said["recipes", name] = "cooked"
    for village in session.villages:
        name = next(iter(village.name.values()), "")
        languages = " + ".join(village.languages)
        said["villages", name] = f"{village.copies} copies of each dish in {languages}"
    for chart in session.charts:
        ways = " and ".join(w for w, on in (("whole", chart.whole), ("tiled", chart.tiled)) if on)
        name = f"{chart.of}, {' + '.join(chart.languages)}"
        said["charts", name] = f"{chart.size.upper()}, {ways}"
    for food, sale in session.market.items():
        much = f"{sale.grams:g} g" if sale.grams else f"{sale.ml:g} ml"
        said["market", food] = f"{sale.pack} of {much}"
    return said


def _day(day: DayFile) -> Told:
    """What a plan says, in plain words."""
    said = {
        ("title", ""): " / ".join(day.title.values()),
        ("ages", ""): ", ".join(f"{band} months" for band in day.bands),
        ("breast milk", ""): day.milk,
        ("season", ""): day.season,
        ("meals", "proposed"): "yes" if day.propose else "",
        ("dishes on hand", ""): ", ".join(name for name, _ in day.dishes),
        ("foods not to be had", ""): ", ".join(name for name, _ in day.without),
        ("meals", "how often a dish may come"): str(day.most_times),
        ("revised", ""): day.revised,
    }
    for number, meals in enumerate(day.days, 1):
        for slot, planned in meals.items():
            name = f"day {number}, {slot}" if day.is_week else slot
            said["meals", name] = _meal(planned)
    for price in day.prices:
        said["prices", price.food] = f"{price.value:g} {day.money} a {price.unit}"
    return said


def _meal(planned: Planned) -> str:
    if planned.number is None:
        return f"{planned.dish}, the usual portion"
    return f"{planned.number} {planned.unit} {planned.dish}"


def _values(text: str) -> Iterator[tuple[str, str]]:
    """Every value of a YAML file by its keys; of words and programmes."""
    nodes = read_nodes(text, "").value if text else None
    yield from _flat(nodes.value, "") if nodes else ()


def _flat(value: Any, at: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _flat(inner, f"{at}.{key}" if at else str(key))
    elif isinstance(value, list):
        for number, inner in enumerate(value, 1):
            yield from _flat(inner, f"{at} {number}")
    else:
        yield at, str(value)


def _rows(text: str) -> Iterator[tuple[str, str]]:
    """The rows of a table by their first cell."""
    for row in csv.reader(io.StringIO(text)):
        if row:
            yield row[0], ", ".join(cell for cell in row[1:] if cell)


def _dish(parts: Mapping[str, Part], role: str) -> tuple[str, dict[str, str]]:
    """A recipe's text and those of its side files."""
    side = f"side {role.removeprefix('recipe ')} "
    sides = {part.path: part.text for key, part in parts.items() if key.startswith(side)}
    return (parts[role].text if role in parts else "", sides)


def _dish_changes(
    role: str, old: Mapping[str, Part], new: Mapping[str, Part], kit: Kit
) -> Iterator[Change]:
    """What differs on the dish's card; its block is named after the dish."""
    name = role.removeprefix("recipe ")
    if role not in old or role not in new:
        yield Change("dishes", name if role in old else "", name if role in new else "")
        return
    before, now = (_run(parts, role, kit) for parts in (old, new))
    if before.card is None or now.card is None:
        yield Change(name, "", "the recipe has changed, and no card can be made of one of the two")
        return
    found = changes(before.card, now.card)
    for change in found:
        yield Change(f"{name}, {change.block}", change.before, change.now)


def _run(parts: Mapping[str, Part], role: str, kit: Kit) -> Run:
    """The dish as it would be made today, in the programme's languages."""
    keys = [f"side {role.removeprefix('recipe ')} {code}" for code in kit.programme.printed]
    sides = {parts[key].path: parts[key].text for key in keys if key in parts}
    return run_text(parts[role].text, parts[role].path, kit, sides)
