"""Sheets and their cuts, and ready-cut pieces."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from enum import Enum
from functools import cached_property
from typing import Annotated, Any

from booklet.kit.element import MOST_ELEMENTS, Element, PrintedElement, in_lines
from booklet.kit.fields import (
    Edge,
    Face,
    Name,
    PositiveLength,
    SizeField,
    Title,
    Turn,
    WordsField,
    as_tuple,
)
from booklet.kit.pockets import Pockets
from booklet.kit.rules import Around, Before, Limits, OneOf
from booklet.kit.table_work import WORK_VERBS, WorkStep, verb_of_work
from booklet.measure.dataclass import dataclass

SCRAP = "scrap"
PLAN = "plan"
# The key that tells cuts at the trimmer from other work.
_CUT = "at"

# No sheet is cut more often than this: more is a mistake or an attack, and all pairs are compared.
MOST_CUTS = 60
# Names of pieces that something is stated of.
_MOST_NAMED = 200
# Equal sheets, which are cut together if they are cut: a box holds no more of them.
MOST_ALIKE = 12

StripNames = Annotated[tuple[Name, ...], Before(as_tuple), Limits(most=MOST_CUTS + 1)]
# What a strip is called: one name for all papers that are cut together, or one for each.
PaperNames = Annotated[tuple[Name, ...], Before(as_tuple), Limits(1, 10)]
NamesByPaper = Annotated[tuple[PaperNames, ...], Before(as_tuple), Limits(most=MOST_CUTS + 1)]
Readings = Annotated[tuple[PositiveLength, ...], Before(as_tuple), Limits(1, MOST_CUTS)]


@dataclass(frozen=True, kw_only=True)
class Lay:
    """How a sheet first lies in the trimmer: which face is up and which edge lies where, as a hand sees it.

    Each value is an edge of the front (top, right, bottom, left) or the paper's own words for one.  One says
    how the sheet lies, more are checked against it.
    """

    face: Face = Face.FRONT
    left: Name | None = None
    right: Name | None = None
    top: Name | None = None
    bottom: Name | None = None

    @property
    def said(self) -> dict[Edge, str]:
        """The words for edges of the front by where they are to lie; unsaid, the left one is at the left."""
        places = {edge: getattr(self, edge.value) for edge in (Edge.LEFT, Edge.RIGHT, Edge.TOP, Edge.BOTTOM)}
        return {edge: word for edge, word in places.items() if word is not None} or {Edge.LEFT: "left"}

    @property
    def half_round(self) -> Lay:
        """The same turned half round in the hand."""
        return Lay(face=self.face, **{edge.opposite.value: word for edge, word in self.said.items()})


@dataclass(frozen=True, kw_only=True)
class CutStep:
    """Take the sheet or pieces of it, turn them or not, and cut at these readings in this order.

    `leaves` names what then lies between neighbouring readings, from the scale's zero outwards: by one name,
    or by one for each of the papers in the order in which they are taken.
    """

    at: Readings
    leaves: NamesByPaper = ()
    take: StripNames = ()
    turn: Turn | None = None
    tip: WordsField | None = None


def _kind_of_step(value: Any) -> str | None:
    """What a step does: work of one kind where it has that key, else cuts at the trimmer."""
    if isinstance(value, CutStep):
        return _CUT
    if isinstance(value, WorkStep):
        return verb_of_work(value)
    found = [key for key in value if key in WORK_VERBS] if isinstance(value, dict) else None
    if found is None or len(found) > 1:
        return None
    return found[0] if found else _CUT


SheetStep = Annotated[CutStep | WorkStep, OneOf({_CUT: CutStep, **WORK_VERBS}, _kind_of_step)]


def _or_plan(value: Any, read: Callable[[Any], Any]) -> Any:
    """`cuts: plan` leaves the cuts to the planner: None."""
    if value is None or (isinstance(value, str) and value != PLAN):
        raise ValueError("a list of cuts, or the word plan")
    return None if value == PLAN else read(value)


_Steps = Annotated[tuple[SheetStep, ...], Limits(most=MOST_CUTS)]
Cuts = Annotated[_Steps | None, Around(_or_plan)]
NamePair = Annotated[tuple[Name, ...], Limits(2, 2)]


@dataclass(frozen=True, kw_only=True)
class Wishes:
    """What the cuts of a sheet are to keep to.

    `edge`: a piece lies at this edge of the front (top, right, bottom, left or the paper's own word for one);
    of cuts that are written, it is checked.
    `beside`: two pieces lie next to each other in one strip, so that one setting cuts both.
    """

    edge: Annotated[dict[Name, Name], Limits(most=_MOST_NAMED)] = field(default_factory=dict)
    beside: Annotated[tuple[NamePair, ...], Limits(most=MOST_CUTS)] = ()


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One sheet of the kit (or several equal ones, cut together) and its cuts in order.

    `cuts` is None where the spec says `cuts: plan`: cuts for the pieces named in `sizes` are then found.
    Among them stands what scissors and punches do before a piece is filed.
    With `elements` it is a cut-apart sheet: its cuts run on printed register marks between them, a piece that
    holds one element takes that element's name, and planned cuts follow from where they lie.
    `artwork` is an image beside the spec of the whole front of such a sheet.
    """

    id: Name
    paper: Name
    title: Title | None = None
    size: SizeField | None = None
    count: Annotated[int, Limits(1, MOST_ALIKE)] = 1
    lay: Lay = Lay()
    cuts: Cuts = ()
    wishes: Wishes = Wishes()
    elements: Annotated[tuple[Element, ...], Limits(most=MOST_ELEMENTS)] = ()
    artwork: Name | None = None
    spare: StripNames = ()
    sizes: Annotated[dict[Name, SizeField], Limits(most=_MOST_NAMED)] = field(default_factory=dict)
    pockets: Annotated[dict[Name, Pockets], Limits(most=_MOST_NAMED)] = field(default_factory=dict)
    tip: WordsField | None = None

    @cached_property
    def printed(self) -> tuple[PrintedElement, ...]:
        """Every printed element of the sheet, one by one, in the order of the spec."""
        return tuple(
            printed for number, element in enumerate(self.elements) for printed in in_lines(element, number)
        )

    @property
    def cut_steps(self) -> tuple[CutStep, ...]:
        """Its steps at the trimmer, without other work."""
        return tuple(step for step in self.cuts or () if isinstance(step, CutStep))

    @property
    def is_cut_apart(self) -> bool:
        """Whether this is a printed sheet of small elements."""
        return bool(self.elements)


class OutlineShape(Enum):
    """The outline of a ready-cut piece."""

    RECTANGLE = "rectangle"
    CIRCLE = "circle"
    TAG = "tag"


@dataclass(frozen=True, kw_only=True)
class ReadyCut:
    """Pieces that come ready-cut in the box: mats, tags, die-cut shapes."""

    name: Name
    size: SizeField
    paper: Name
    count: Annotated[int, Limits(1, 999)] = 1
    spare: Annotated[int, Limits(0, 999)] = 0
    outline: OutlineShape = OutlineShape.RECTANGLE
    tip: WordsField | None = None
