"""Claims: every number that the pages of a booklet are to show, what it is for, and where it comes from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum

from booklet.content.figures import NumberedLayout
from booklet.content.spans import (
    CutRef,
    Degrees,
    Extent,
    Length,
    Line,
    Number,
    Own,
    PageRef,
    PieceRef,
    PocketRef,
    Role,
    SheetRef,
    Span,
    StepRef,
    plain_text,
)
from booklet.drawing.shapes.figure import Figure, Group, Shape, Text, Use
from booklet.kit.fields import Edge
from booklet.kit.finding import SpecPath
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.pages.booklet import LaidBooklet
from booklet.pages.boxes import FigureBox, PageNumber, all_in
from booklet.pages.compose import Page, page_numbers
from booklet.pages.edges import edges_of, margin_figure
from booklet.pages.head import SectionHead
from booklet.pages.text import TextBlock
from booklet.proof.numerals import numerals


class Kind(Enum):
    """What a number is, where it is no measure with a role of its own."""

    SIZE = "size"
    COUNT = "count"
    TILT = "tilt"
    CUT = "cut"
    STEP = "step"
    SHEET = "sheet"
    PIECE = "piece"
    POCKET = "pocket"
    PAGE = "page"
    FIGURE = "in a figure"
    OWN = "the author's words"
    WORDS = "words"


@dataclass(frozen=True)
class Claim:
    """A number, or a few in one text, that a page is to show.

    `key` tells it apart from all others and survives a rewording: the section, the cut or step, what it is,
    the place in the spec in the spec's own words.  `said` is the text as print sets it, `value` the exact
    numbers behind it (none for words), `source` the value of the spec that it is or follows from.  `cut` is
    the number of the cut in whose row it stands, `counted` for a flag's value the edge along which the flag
    stands and the one from which it counts.  What `is_in_order` is read in the order of
    its page's claims; the numbers of a figure have no such order.
    """

    key: str
    kind: Role | Kind
    said: str
    page: int
    value: tuple[Fraction, ...] = ()
    unit: Unit | None = None
    source: SpecPath | None = None
    figure: str = ""
    cut: int | None = None
    counted: tuple[Edge, Edge] | None = None
    is_in_order: bool = True


PlaceWords = Callable[[SpecPath], str]


def claims(laid: LaidBooklet, place_words: PlaceWords) -> tuple[Claim, ...]:
    """Every claim of a booklet's pages in reading order; `place_words` says a place as the spec calls it."""
    edges = edges_of(laid.setup.document.sections)
    book = _Book(page_numbers(laid.pages), place_words)
    found: list[Claim] = []
    for number, page in enumerate(laid.pages, 1):
        found += _of_page(page, number, book)
        found += _of_figure(margin_figure(laid.setup, page, number, edges), "margins", number, book)
    return tuple(_told_apart(claim for claim in found if list(numerals(claim.said))))


@dataclass(frozen=True)
class _Book:
    """What all pages share: the page on which each anchor lies, and how the spec calls its places."""

    page_of: Mapping[str, int]
    place_words: PlaceWords


def _told_apart(found: Iterable[Claim]) -> Iterator[Claim]:
    """Claims whose keys differ: a second one of a key has its number after it."""
    seen: Counter[str] = Counter()
    for claim in found:
        seen[claim.key] += 1
        yield claim if seen[claim.key] == 1 else replace(claim, key=f"{claim.key} ({seen[claim.key]})")


def _of_page(page: Page, number: int, book: _Book) -> Iterator[Claim]:
    row: CutRef | None = None
    for placed in page.column:
        part = max((part for part in page.parts if part.top <= placed.y + 1.0), key=lambda one: one.top)
        anchor = part.section.anchor or plain_text(part.section.title)
        row = None if isinstance(placed.flowable, SectionHead) else row
        for flowable in all_in(placed.flowable):
            row = _opened_by(flowable) or row
            where = f"{anchor} / {'cut' if row.sheet else 'step'} {row.number}" if row else anchor
            cut = row.number if row and row.sheet else None
            yield from (replace(claim, cut=cut) for claim in _of_flowable(flowable, where, number, book))
        if isinstance(placed.flowable, SectionHead):
            # The number hangs beside the title; which of them is read first depends on how high each stands.
            said = placed.flowable.number
            yield Claim(f"{anchor} / number", Kind.SHEET, said, number, is_in_order=False)


def _opened_by(flowable: object) -> CutRef | None:
    """The cut or the step whose row a flowable opens, by the disc with its number."""
    match flowable:
        case TextBlock(said=(CutRef() as opened,)):
            return opened
        case _:
            return None


def _of_flowable(flowable: object, where: str, page: int, book: _Book) -> Iterator[Claim]:
    match flowable:
        case TextBlock():
            yield from (_of_span(span, where, page, book) for span in _shown(flowable))
        case FigureBox():
            yield from _of_figure(flowable.figure, where, page, book)
        case PageNumber(anchor_named=anchor):
            yield Claim(f"{where} / page of {anchor}", Kind.PAGE, str(book.page_of[anchor]), page)


def _shown(block: TextBlock) -> Line:
    """The spans of a paragraph, or those with numbers on the lines that stand here of one that is parted."""
    if block.lines == slice(None):
        return block.said
    on_lines = [len(list(numerals(text))) for text in block.line_texts]
    first = sum(on_lines[: block.lines.start])
    end = first + sum(on_lines[block.lines])
    shown, at = [], 0
    for span in block.said:
        if first <= at < end:
            shown.append(span)
        at += 1 if isinstance(span, PageRef) else len(list(numerals(plain_text((span,)))))
    return tuple(shown)


def _of_span(span: Span, where: str, page: int, book: _Book) -> Claim:
    source = getattr(span, "source", None)
    kind, value, unit = _measure(span)
    said = str(book.page_of[span.anchor]) if isinstance(span, PageRef) else plain_text((span,))
    key = " / ".join((where, kind.value, *((book.place_words(source),) if source else ())))
    return Claim(key, kind, said, page, value, unit, source)


def _measure(span: Span) -> tuple[Role | Kind, tuple[Fraction, ...], Unit | None]:
    """What a span's number is for, its exact value and its unit."""
    match span:
        case Length():
            return span.role, (span.value,), span.unit
        case Extent():
            return Kind.SIZE, (span.size.width, span.size.height), span.unit
        case Number():
            return Kind.COUNT, (span.value,), None
        case Degrees():
            return Kind.TILT, (abs(span.value),), None
        case CutRef():
            return Kind.CUT if span.sheet else Kind.STEP, (Fraction(span.number),), None
        case StepRef():
            return Kind.STEP, (Fraction(span.number),), None
        case SheetRef():
            return Kind.SHEET, (Fraction(span.number),), None
        case PieceRef():
            return Kind.PIECE, (), None
        case PocketRef():
            return Kind.POCKET, (), None
        case PageRef():
            return Kind.PAGE, (), None
        case Own():
            return Kind.OWN, (), None
        case _:
            return Kind.WORDS, (), None


def _of_figure(figure: Figure, where: str, page: int, book: _Book) -> Iterator[Claim]:
    """The numbers in a figure: what it was asked to show where that is numbers, else what it says itself."""
    where, asked = f"{where} / {figure.name}", list[Claim]()
    if isinstance(figure.subject, NumberedLayout):
        asked = list(_of_numbered_layout(figure.subject, where, page, book))
    for text in _texts(figure.shapes):
        if isinstance(figure.subject, NumberedLayout) and text.role != "zero":
            claim = next((each for each in asked if each.said == text.text), None)
            if claim is None:
                continue  # nothing asks for it: it will be found to be printed unclaimed
            asked.remove(claim)
        else:
            claim = Claim(f"{where} / {text.role or 'text'}", Kind.FIGURE, text.text, page)
        yield replace(claim, figure=figure.name, is_in_order=False)
    yield from asked


def _of_numbered_layout(asked: NumberedLayout, where: str, page: int, book: _Book) -> Iterator[Claim]:
    """A ring for each printed step on the finished page, and each flag with the rings of its steps."""
    for step in sorted(set(asked.numbers)):
        yield Claim(f"{where} / ring", Kind.STEP, str(step), page, (Fraction(step),))
    for flag in asked.flags:
        along = f"{where} / flag {flag.along.value} from {flag.start.value}"
        value = _of_span(replace(flag.value, with_unit=False), along, page, book)
        yield replace(value, counted=(flag.along, flag.start))
        for step in flag.steps:
            yield Claim(f"{along} / ring", Kind.STEP, str(step), page, (Fraction(step),))


def _texts(shapes: Iterable[Shape]) -> Iterator[Text]:
    for shape in shapes:
        match shape:
            case Text():
                yield shape
            case Group():
                yield from _texts(shape.children)
            case Use():
                yield from _texts(shape.symbol.shapes)
