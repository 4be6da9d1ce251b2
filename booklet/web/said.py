"""Lines of content as HTML: words, measures in both units, numbers of cuts and steps as signs, links."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from urllib.parse import quote

from booklet.content.other_unit import other_text
from booklet.content.spans import (
    CutRef,
    Degrees,
    Extent,
    Length,
    Line,
    LineBreak,
    Number,
    Own,
    PieceRef,
    PocketRef,
    SheetRef,
    Span,
    StepRef,
    Weight,
    Words,
    degrees_text,
    extent_text,
    length_text,
    own_text,
)
from booklet.content.ways import Ways, ways_from
from booklet.measure.dataclass import dataclass
from booklet.web.markup import Node, element

_TAGS = {Weight.STRONG: "strong", Weight.QUIET: "em"}


def anchor_id(anchor: str) -> str:
    """An anchor as an id, which holds no space."""
    return quote(anchor, safe="")


def ids_of(anchors: Iterable[str]) -> str:
    """Anchors, or labels, as an attribute holds several."""
    return " ".join(map(anchor_id, anchors))


def goal(anchor: str) -> str:
    """What a link to an anchor says."""
    return f"#{anchor_id(anchor)}"


@dataclass(frozen=True)
class Speaker:
    """What lines are said with: where the things that they name are told of, and in which section they stand.

    `anchors` are those that the page has.
    """

    ways: Ways
    anchors: frozenset[str]
    section: str = ""

    def say(self, said: Line) -> tuple[Node, ...]:
        """A line as what stands in an element."""
        return tuple(node for span in said for node in self._linked(span))

    def _linked(self, span: Span) -> Iterator[Node]:
        here = self.section
        goals = (anchor for anchor in ways_from(self.ways, span, here) if anchor in self.anchors)
        anchor = next(goals, None)
        shown = _shown(span)
        if anchor is None or anchor == here:
            yield shown
        else:
            yield element("a", shown, href=goal(anchor))


def _shown(span: Span) -> Node:
    match span:
        case Words(text, weight):
            return _weighed(text, weight)
        case Own():
            return _weighed(own_text(span), span.weight)
        case Number():
            return _weighed(span.text, span.weight)
        case Length() | Extent():
            return _measure(span)
        case Degrees():
            return degrees_text(span)
        case CutRef(_, number):
            return element("span", str(number), class_="cut-number")
        case StepRef(_, number):
            return element("span", str(number), class_="step-number")
        case SheetRef(number):
            return str(number)
        case PieceRef(text):
            return element("b", text, class_="piece")
        case PocketRef(name):
            return element("span", name, class_="pocket")
        case LineBreak():
            return element("br")


def _weighed(text: str, weight: Weight) -> Node:
    return element(_TAGS[weight], text) if weight in _TAGS else text


def _measure(span: Length | Extent) -> Node:
    """A measure as the booklet says it, and beside it as it is in the other unit, for a script to show."""
    said = length_text(span) if isinstance(span, Length) else extent_text(span)
    return element(_TAGS.get(span.weight, "span"), said, class_="measure", data_other=other_text(span))
