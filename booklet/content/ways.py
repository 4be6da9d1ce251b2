"""Where a reader goes on from what is named: from a piece to its sheet or its layout, and back.

A page's number is for paper.  A reader at a screen follows these: anchors of the document, found by spans.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field

from booklet.content.spans import Own, PieceRef, PocketRef, SheetRef, Span
from booklet.measure.dataclass import dataclass

# A layout's name in the spec: the list of layouts, its index, and the key of the name.
_LAYOUTS, _NAMING_KEYS = "layouts", ("title", "id")


@dataclass(frozen=True)
class PieceWays:
    """Its sheet, where it is cut, where it is filed, and where it is used; None where it is not."""

    sheet: str
    cut: str
    pocket: str | None
    layout: str | None


@dataclass(frozen=True)
class Ways:
    """The anchors of pieces by their labels, of layouts by their indexes, of pockets by their names.

    A pocket leads to where its contents are listed, or else to the first layout that it serves.
    """

    pieces: Mapping[str, PieceWays] = field(default_factory=dict)
    layouts: tuple[str, ...] = ()
    pockets: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def ways_from(ways: Ways, span: Span, section: str) -> Iterator[str]:
    """The anchors that a span in a section leads to, the best first; none where it names no such thing."""
    match span:
        case PieceRef():
            yield from _of_piece(ways.pieces.get(span.label), section)
        case SheetRef():
            yield sheet_anchor(span.sheet)
        case PocketRef():
            yield from ways.pockets.get(span.name, ())
        case Own():
            yield from _of_name(ways, span)


def _of_piece(piece: PieceWays | None, section: str) -> Iterator[str]:
    """Where its sheet is in hand, on to where it is used or filed; from anywhere else, back to its sheet."""
    if piece is None:
        return
    if section != piece.sheet:
        yield piece.cut
    else:
        yield from (anchor for anchor in (piece.layout, piece.pocket) if anchor is not None)


def _of_name(ways: Ways, span: Own) -> Iterator[str]:
    if span.leads_to:
        yield span.leads_to
    elif (index := _layout_index(span)) is not None:
        yield from ways.layouts[index : index + 1]


def _layout_index(span: Own) -> int | None:
    """The index of the layout that the designer's words name; None where they are other words."""
    match span.source:
        case (str(key), int(index), str(name)) if key == _LAYOUTS and name in _NAMING_KEYS:
            return index
    return None


def may_lead(span: Span) -> bool:
    """Whether a span names something that another place of a booklet may tell of."""
    match span:
        case Own():
            return bool(span.leads_to) or _layout_index(span) is not None
        case PieceRef() | SheetRef() | PocketRef():
            return True
    return False


# The anchors that several parts of the booklet know.


def sheet_anchor(id: str) -> str:
    """What a reference to a sheet's pages points to, by the sheet's id."""
    return f"sheet-{id}"


def stage_anchor(id: str, number: int) -> str:
    """What a reference to a stage at the trimmer points to, by its sheet's id and its number."""
    return f"cut-{id}-{number}"


def layout_anchor(id: str) -> str:
    """What a reference to a layout's pages points to, by the layout's id."""
    return f"layout-{id}"


def pocket_anchor(name: str) -> str:
    """What a reference to the contents of a pocket points to, by the pocket's name."""
    return f"pocket-{name}"
