"""Where on a page a thing of the spec is shown: figures and what is seen in them, sentences, values."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import takewhile

from booklet.content.figures import (
    CutFigure,
    FinishedPages,
    Flag,
    LensFigure,
    NumberedLayout,
    PhotoFigure,
    PieceMap,
    PileFigure,
    PocketFigure,
    ReadySwatch,
    SignFigure,
    StepFigure,
    SupplySwatch,
    TrimmerFigure,
)
from booklet.content.spans import Span, length_text
from booklet.cutting.model import CutSheet
from booklet.drawing.layouts.rulers import FLAG_TAG
from booklet.drawing.marks.ring import RING_TAG
from booklet.drawing.shapes.affine import IDENTITY, Affine, Box, translation
from booklet.drawing.shapes.figure import Figure, Group, Shape, Text, bounds
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass, replace
from booklet.pages.again import PageAlone
from booklet.pages.boxes import FigureBox
from booklet.pages.canvas import Noted
from booklet.pages.set_spans import set_spans
from booklet.pages.text import TextBlock
from booklet.proof.figure_claims import said_in
from booklet.proof.sources import Sources, Subject

# A thing that is smaller on the page than this, in points, is pointed at by what is about it.
_LEAST = 2.0
# About letters, so that they are easily met.
_AROUND = 1.0
# A path as long as this names one thing of a list: a sheet, a layout.
_ONE_THING = 2
# A finding is shown on so many pages at most.
_MOST_PAGES = 3

PartOfPage = tuple[float, float, float, float]
_Found = Iterator[tuple[Box, SpecPath]]


@dataclass(frozen=True)
class Place:
    """A part of a page (left, top, right and bottom, in parts of its width and height), and what of the spec
    it shows.
    """

    part: PartOfPage
    path: SpecPath


def places_on(page: PageAlone, sources: Sources, size: tuple[float, float]) -> tuple[Place, ...]:
    """The places on a page of a size in points, the largest first: what lies in one comes after it."""
    found: dict[Place, None] = {}
    for noted in page.noted:
        subject = sources.subject(noted.section)
        for box, path in _in_flowable(noted, subject, sources):
            if min(box.width, box.height) >= _LEAST:
                high = noted.flowable.height if isinstance(noted.flowable, TextBlock) else _height(noted)
                move = translation(noted.left, size[1] - noted.bottom - high)
                found[Place(_part(box.under(move), size), path)] = None
    return tuple(sorted(found, key=lambda place: -_area(place.part)))


def _height(noted: Noted) -> float:
    return float(noted.flowable.figure.height)


def _part(box: Box, size: tuple[float, float]) -> PartOfPage:
    width, height = size
    return box.left / width, box.top / height, box.right / width, box.bottom / height


def _area(part: PartOfPage) -> float:
    left, top, right, bottom = part
    return (right - left) * (bottom - top)


def _in_flowable(noted: Noted, subject: Subject, sources: Sources) -> _Found:
    if isinstance(noted.flowable, TextBlock):
        yield from _in_words(noted.flowable, subject, sources)
    elif isinstance(noted.flowable, FigureBox):
        yield from _in_figure(noted.flowable.figure, subject, sources)


# Words.


def _in_words(block: TextBlock, subject: Subject, sources: Sources) -> _Found:
    """A paragraph as a whole, and each span of it that comes from a place of its own."""
    whole = _of_sentence(block.said, subject, sources)
    if whole is not None:
        yield Box(0.0, 0.0, block.width, block.height), whole
    for span, box in set_spans(block):
        path = sources.of_span(span, subject)
        if path is not None and path != whole:
            yield box.grown(_AROUND), path


def _of_sentence(said: Iterable[Span], subject: Subject, sources: Sources) -> SpecPath | None:
    """What a sentence is about: the nearest that holds all its values, as far as they belong to the subject
    of the section; elsewhere, where its first value comes from.
    """
    paths = [path for span in said if (path := sources.of_span(span, subject))]
    about = sources.of_subject(subject)
    if about is None:
        return paths[0] if paths else None
    own = [path for path in paths if path[: len(about)] == about]
    return common(own) if own else about


def common(paths: Sequence[SpecPath]) -> SpecPath:
    """The nearest place that holds all of some places."""
    rows = takewhile(lambda keys: len(set(keys)) == 1, zip(*paths, strict=False))
    return tuple(keys[0] for keys in rows)


# Figures.


def _in_figure(figure: Figure, subject: Subject, sources: Sources) -> _Found:
    whole = _of_figure(figure.subject, subject, sources)
    if whole is not None:
        yield Box(0.0, 0.0, figure.width, figure.height), whole
    name = _naming(figure.subject, sources)
    for area in figure.areas:
        path = name(area.what)
        if path is not None:
            yield area.box, path
    for box, path in _lettered(figure, subject, sources):
        yield box.grown(_AROUND), path


def _of_figure(asked: object, subject: Subject, sources: Sources) -> SpecPath | None:
    """What a figure as a whole shows."""
    match asked:
        case CutFigure(sheet, stage) | LensFigure(sheet, stage):
            return _sheet(sheet, sources).stages[stage - 1].where
        case TrimmerFigure(sheet):
            return ("sheets", sheet, "lay")
        case PieceMap(sheet):
            return ("sheets", sheet)
        case NumberedLayout(layout=layout):
            return ("layouts", layout)
        case StepFigure(layout=layout, step=step):
            return sources.of_step(subject.layout, step) or ("layouts", layout)
        case ReadySwatch(index):
            return ("ready", index)
        case SupplySwatch(index):
            return ("supplies", index)
        case PhotoFigure(size):
            return size.source
        case PocketFigure(name):
            return sources.of_pocket(name, subject.sheet)
        case SignFigure(value=value):
            return value.source
        case PileFigure():
            return ("pile",)
    return None


def _sheet(index: int, sources: Sources) -> CutSheet:
    return next(one for one in sources.resolved.sheets if one.index == index)


def _naming(asked: object, sources: Sources) -> Callable[[object], SpecPath | None]:
    """What leads from that which a figure says of its areas to places of the spec."""
    paths: Sequence[SpecPath] = ()
    match asked:
        case CutFigure(sheet, stage):
            strips = _sheet(sheet, sources).stages[stage - 1].strips
            paths = [strip.pieces[0].where for strip in strips]
        case PieceMap(sheet):
            pieces = _sheet(sheet, sources).pieces
            paths = list({piece.part: piece.where for piece in reversed(pieces)}.values())[::-1]
        case FinishedPages(layouts):
            paths = [("layouts", layout) for layout in layouts]
        case _:
            return lambda what: what if isinstance(what, tuple) else None
    return lambda what: paths[what] if isinstance(what, int) and what < len(paths) else None


def _lettered(figure: Figure, subject: Subject, sources: Sources) -> _Found:
    """The numbers, letters and lengths that stand in a figure."""
    asked = figure.subject
    if isinstance(asked, NumberedLayout):
        yield from _rings_and_flags(figure, asked, subject, sources)
    elif isinstance(asked, CutFigure | LensFigure):
        texts = ((text, place) for text, place in _walked(figure.shapes, IDENTITY) if isinstance(text, Text))
        for (text, place), said in zip(texts, said_in(figure, subject, sources), strict=False):
            if said.source is not None and text.role != "scale":
                yield text.box.under(place), said.source


def _rings_and_flags(figure: Figure, asked: NumberedLayout, subject: Subject, sources: Sources) -> _Found:
    """Each ring, and the words of each flag."""
    for shape, place in _walked(figure.shapes, IDENTITY):
        if not isinstance(shape, Group) or shape.tag not in (RING_TAG, FLAG_TAG):
            continue
        texts = [(each, within) for each, within in _walked([shape], place) if isinstance(each, Text)]
        said = [text.text for text, _ in texts]
        if shape.tag == RING_TAG:
            path = sources.of_step(subject.layout, int(said[0]))
            box = bounds([shape]).under(place)
        else:
            label = shape.dimension.label if shape.dimension is not None else ""
            path = _flag_source(label, said, asked.flags)
            box = next(text.box.under(within) for text, within in texts if text.text == label)
        if path is not None:
            yield box, path


def _flag_source(label: str, texts: Sequence[str], flags: Sequence[Flag]) -> SpecPath | None:
    """Where the value of a flag is stated: of alike ones that with the rings of the same steps."""
    for flag in flags:
        said = length_text(replace(flag.value, with_unit=False))
        if said == label and all(str(step) in texts for step in flag.steps):
            return flag.value.source
    return None


def _walked(shapes: Iterable[Shape], place: Affine) -> Iterator[tuple[Shape, Affine]]:
    """Texts and groups, however deep but in symbols, with the map that leads from them to the figure."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield shape, place
            yield from _walked(shape.children, shape.transform.then(place))
        elif isinstance(shape, Text):
            yield shape, place


# Findings.


def pages_of(where: SpecPath, places: Mapping[int, Sequence[Place]]) -> tuple[tuple[int, PartOfPage], ...]:
    """The pages that show a place of the spec, or the nearest thing about it, and where; few of them."""
    best, found = _ONE_THING - 1, dict[int, PartOfPage]()
    for number, shown in places.items():
        for place in shown:
            alike = len(common([where, place.path]))
            # What is shown is what is meant, or holds it, or the thing that both belong to.
            if alike < best or alike < _ONE_THING:
                continue
            if alike > best:
                best, found = alike, {}
            found.setdefault(number, place.part)
    return tuple(found.items())[:_MOST_PAGES]
