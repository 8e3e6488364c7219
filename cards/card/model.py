"""The Card: frozen blocks in reading order."""

from __future__ import annotations

from dataclasses import dataclass

from cards.diagnostics.diagnostic import Place


@dataclass(frozen=True, slots=True)
class Text:
    """A text in one language; ``*stars*`` mark the bold stretches; ``at`` is its source."""

    language: str
    text: str
    at: Place


Said = tuple[Text, ...]
"""The same thing in each language of the card, first language first."""


@dataclass(frozen=True, slots=True)
class IconUse:
    """An icon with its parameters. ``label`` is printed in its middle; ``alt`` says it in words."""

    name: str
    params: tuple[tuple[str, float | str], ...] = ()
    label: str = ""
    alt: str = ""


@dataclass(frozen=True, slots=True)
class Marked:
    """An icon with words beside it."""

    icon: IconUse
    said: Said


@dataclass(frozen=True, slots=True)
class Heading:
    """Title and the ages the dish is for."""

    title: Said
    age_icon: IconUse
    ages: str
    months: Said
    one_of: Said
    """Which of how many sides, with ``{number}`` and ``{count}`` to be filled in."""
    counted: Said = ()
    """The same filled in, where a list runs on to a further side."""
    digits: tuple[str, ...] = ()
    """The ten digits of each language of ``one_of``; ours where there are none."""


@dataclass(frozen=True, slots=True)
class Lead:
    """How long before eating to begin."""

    items: tuple[Marked, ...]


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One ingredient: measure icons, number, words; ``preps`` show what was done to it before."""

    icons: tuple[IconUse, ...]
    number: str
    said: Said
    preps: tuple[IconUse, ...] = ()


@dataclass(frozen=True, slots=True)
class NeedSection:
    """The ingredients of one part."""

    heading: Said
    rows: tuple[NeedRow, ...]
    mark: IconUse | None = None
    """What tells the part from the others; None for a dish of one part."""


@dataclass(frozen=True, slots=True)
class NeedList:
    """All ingredients."""

    sections: tuple[NeedSection, ...]


@dataclass(frozen=True, slots=True)
class PortionColumn:
    """One age band: who, how soft, how much, how often."""

    age_icon: IconUse
    ages: str
    months: Said
    texture: Marked
    start: str
    """The first weeks' number of big spoons; empty where there is none."""
    start_icons: tuple[IconUse, ...]
    amount_icons: tuple[IconUse, ...]
    amount: Said
    first: Said
    """The first weeks' amount with its measure; empty where there is none."""
    meal_icons: tuple[IconUse, ...]
    meals: Said
    seldom: tuple[IconUse, ...] = ()
    """What says that the dish is not for every day; empty for a dish that is."""


@dataclass(frozen=True, slots=True)
class PortionTable:
    """Portions by age, and that breastfeeding goes on."""

    columns: tuple[PortionColumn, ...]
    breast_milk: Marked


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step: number, picture, words, and the marks in their column."""

    number: str
    icon: IconUse
    said: Said
    marks: tuple[IconUse, ...]
    parts: tuple[IconUse, ...] = ()
    """The marks of the parts that it takes."""


@dataclass(frozen=True, slots=True)
class StepSection:
    """The steps of one part."""

    heading: Said
    rows: tuple[StepRow, ...]
    mark: IconUse | None = None


@dataclass(frozen=True, slots=True)
class StepList:
    """All steps."""

    sections: tuple[StepSection, ...]


@dataclass(frozen=True, slots=True)
class SafetyBox:
    """Cautions, most serious first.

    ``own`` belong to this dish and are all printed; ``general`` hold for every
    dish, and as many are printed as the box takes without crowding.
    """

    own: tuple[Marked, ...]
    general: tuple[Marked, ...]


@dataclass(frozen=True, slots=True)
class Foot:
    """What the dish brings, who comes first, and where the card comes from."""

    brings: Said
    groups: tuple[Marked, ...]
    guidance: Marked
    qr: str
    trace: tuple[Said, ...]
    """Who prints it; file, version and digest. In small type, where a side has room for one."""
    drafts: Said = ()
    """In each language whose words nobody has read over: that it is so."""


@dataclass(frozen=True, slots=True)
class CardMeta:
    """What the file says of itself."""

    title: str
    author: str
    language: str
    subject: str
    revised: str
    path: str
    """Path of the recipe file, for messages about the card as a whole."""
    keywords: str = ""
    """What it is of: name, version and digest."""
    code: str = ""
    """What the QR code of its pages says."""


@dataclass(frozen=True, slots=True)
class Card:
    """Everything a card says. Which block stands on which side is the layout's choice."""

    meta: CardMeta
    heading: Heading
    lead: Lead
    needs: NeedList
    portions: PortionTable
    steps: StepList
    safety: SafetyBox
    foot: Foot
