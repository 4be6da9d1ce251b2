"""Every number and word that the pages of a booklet are to show, and where in the spec it comes from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping

from booklet.content.blocks import PaperEdge
from booklet.content.figures import NumberedLayout
from booklet.content.spans import (
    CutRef,
    Degrees,
    Extent,
    Length,
    Line,
    Number,
    Own,
    PieceRef,
    PocketRef,
    Role,
    SheetRef,
    Span,
    StepRef,
    plain_text,
)
from booklet.drawing.shapes.figure import Figure, Text
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.pages.booklet import LaidBooklet
from booklet.pages.boxes import FigureBox, PageNumber, all_in
from booklet.pages.compose import Page, PagePart, page_numbers
from booklet.pages.edges import edges_of, margin_figure
from booklet.pages.head import SectionHead
from booklet.pages.text import TextBlock
from booklet.placing.resolved import ResolvedKit
from booklet.proof.claim import Claim, Kind
from booklet.proof.figure_claims import Said, said_in, texts_of
from booklet.proof.measured import anchor_of
from booklet.proof.numerals import tokens
from booklet.proof.sources import Sources, Subject

PlaceWords = Callable[[SpecPath], str]


def claims(laid: LaidBooklet, resolved: ResolvedKit, place_words: PlaceWords) -> tuple[Claim, ...]:
    """Every claim of a booklet's pages in reading order; `place_words` says a place as the spec calls it."""
    edges = edges_of(laid.setup.document.sections)
    sources = Sources(resolved, tuple(numbered_layouts(laid)))
    book = _Book(page_numbers(laid.pages), sources, place_words)
    found: list[Claim] = []
    for number, page in enumerate(laid.pages, 1):
        found += _of_page(page, number, book)
        found += _of_margins(margin_figure(laid.setup, page, number, edges), page, number, book)
    return tuple(_told_apart(claim for claim in found if next(tokens(claim.said), None) is not None))


def numbered_layouts(laid: LaidBooklet) -> Iterator[NumberedLayout]:
    """The layouts as they are shown, with the printed numbers of their steps."""
    for page in laid.pages:
        for placed in page.column:
            for each in all_in(placed.flowable):
                if isinstance(each, FigureBox) and isinstance(each.figure.subject, NumberedLayout):
                    yield each.figure.subject


@dataclass(frozen=True)
class _Book:
    """What all pages share: on which page each anchor lies, where things come from, how the spec calls it."""

    page_of: Mapping[str, int]
    sources: Sources
    place_words: PlaceWords


def _told_apart(found: Iterable[Claim]) -> Iterator[Claim]:
    """Claims whose keys differ: a second one of a key has its number after it."""
    seen: Counter[str] = Counter()
    for claim in found:
        seen[claim.key] += 1
        yield claim if seen[claim.key] == 1 else replace(claim, key=f"{claim.key} ({seen[claim.key]})")


# What stands in the column.


@dataclass(frozen=True)
class _Where:
    """Where something stands: its page and section, the section's number, the page's scales, and its row."""

    page: int
    anchor: str
    number: str
    subject: Subject
    scales: frozenset[str]
    row: CutRef | None = None

    @property
    def words(self) -> str:
        """The beginning of its key."""
        if self.row is None:
            return self.anchor
        return f"{self.anchor} / {'cut' if self.row.sheet else 'step'} {self.row.number}"


def _of_page(page: Page, number: int, book: _Book) -> Iterator[Claim]:
    row: CutRef | None = None
    scales = frozenset(figure.scale for figure in _figures(page) if figure.scale)
    for placed in page.column:
        part = page.part_at(placed.y)
        anchor = anchor_of(part.section)
        head = _Where(number, anchor, part.section.number, book.sources.subject(anchor), scales)
        row = None if isinstance(placed.flowable, SectionHead) else row
        for flowable in all_in(placed.flowable):
            row = _opened_by(flowable) or row
            yield from _of_flowable(flowable, replace(head, row=row), book)
        if isinstance(placed.flowable, SectionHead) and part.section.number:
            # The number hangs beside the title; which of them is read first depends on how high each stands.
            said, source = placed.flowable.number, book.sources.of_subject(head.subject)
            key = f"{anchor} / number"
            yield Claim(key, Kind.SHEET, said, number, source=source, is_in_order=False)


def _figures(page: Page) -> Iterator[Figure]:
    for placed in page.column:
        yield from (each.figure for each in all_in(placed.flowable) if isinstance(each, FigureBox))


def _opened_by(flowable: object) -> CutRef | None:
    """The cut or the step whose row a flowable opens, by the disc with its number."""
    match flowable:
        case TextBlock(said=(CutRef() as opened,)):
            return opened
        case _:
            return None


def _of_flowable(flowable: object, where: _Where, book: _Book) -> Iterator[Claim]:
    match flowable:
        case TextBlock():
            yield from (_of_span(span, where, book) for span in _shown(flowable))
        case FigureBox():
            yield from _of_figure(flowable.figure, where, book)
        case PageNumber(anchor_named=anchor):
            key = f"{where.words} / page of {anchor}"
            yield Claim(key, Kind.PAGE, str(book.page_of[anchor]), where.page)


def _shown(block: TextBlock) -> Line:
    """The spans of a paragraph, or those with words on the lines that stand here of one that is parted."""
    if block.lines == slice(None):
        return block.said
    on_lines = [len(list(tokens(text))) for text in block.line_texts]
    first = sum(on_lines[: block.lines.start])
    end = first + sum(on_lines[block.lines])
    shown, at = [], 0
    for span in block.said:
        if first <= at < end:
            shown.append(span)
        at += len(list(tokens(plain_text((span,)))))
    return tuple(shown)


def _of_span(span: Span, where: _Where, book: _Book) -> Claim:
    said = plain_text((span,))
    kind, value, unit = _measure(span)
    source = book.sources.of_span(span, where.subject)
    if kind is Kind.WORDS and said in where.scales:
        kind, source = Kind.SCALE, book.sources.of_subject(where.subject) or book.sources.of_scale()
    elif kind is Kind.WORDS and where.number and said.strip() == where.number:
        kind, source = Kind.SHEET, book.sources.of_subject(where.subject)
    key = _key(where.words, kind, source, book)
    return Claim(key, kind, said, where.page, value, unit, source)


def _key(where: str, kind: Role | Kind, source: SpecPath | None, book: _Book) -> str:
    return " / ".join((where, kind.value, *((book.place_words(source),) if source else ())))


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
        case Own():
            return Kind.OWN, (), None
        case _:
            return Kind.WORDS, (), None


# What stands in figures and in the margins.


def _of_figure(figure: Figure, where: _Where, book: _Book) -> Iterator[Claim]:
    """The texts in a figure: what it was asked to show where that is known, else what it says itself."""
    for said in said_in(figure, where.subject, book.sources):
        yield _of_said(said, f"{where.anchor} / {said.figure}", where.page, book)


def _of_said(said: Said, where: str, page: int, book: _Book) -> Claim:
    return Claim(
        _key(f"{where} / {said.what}" if said.what else where, said.kind, said.source, book),
        said.kind,
        said.text,
        page,
        said.value,
        said.unit,
        said.source,
        is_in_order=False,
    )


def _of_margins(figure: Figure, page: Page, number: int, book: _Book) -> Iterator[Claim]:
    """The folio and the titles beside it, the tab of a sheet, the index of pockets, words by the spine."""
    where = f"{anchor_of(page.parts[0].section)} / edge" if page.parts else f"page {number}"
    for text in texts_of(figure.shapes):
        kind, source = _in_margin(text, page.parts, book)
        yield _of_said(Said("margins", text.text, kind, source=source), where, number, book)


def _in_margin(text: Text, parts: Iterable[PagePart], book: _Book) -> tuple[Kind, SpecPath | None]:
    if text.role == "folio":
        return Kind.PAGE, None
    if text.role != "edge":
        own = next((span for part in parts for span in part.section.title if isinstance(span, Own)), None)
        return Kind.OWN, own.source if own else ("title",)
    for part in parts:
        subject = book.sources.subject(anchor_of(part.section))
        if isinstance(part.section.edge, PaperEdge):
            return Kind.SHEET, book.sources.of_subject(subject)
    return Kind.POCKET, book.sources.of_pocket(text.text, None)
