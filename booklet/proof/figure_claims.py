"""What the texts of figures stand for (cuts, pieces, widths, flags), from what each was asked to show."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from booklet.content.figures import (
    CutFigure,
    LensFigure,
    NumberedLayout,
    PieceMap,
    PocketFigure,
    PrintCheck,
    SignFigure,
    StepFigure,
)
from booklet.content.spans import length_text
from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.layouts.rings import rings_of
from booklet.drawing.marks.print_check import check_length
from booklet.drawing.shapes.figure import Figure, Group, Shape, Text, Use
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.proof.claim import Kind
from booklet.proof.numerals import numerals, tokens
from booklet.proof.sources import Sources, Subject


@dataclass(frozen=True)
class Said:
    """A text in a figure: which figure of its section, what it is there, and as in a claim what it says.

    `what` tells apart what is alike: the edge along which a flag stands, the figure of a stage.
    """

    figure: str
    text: str
    kind: Kind
    value: tuple[Fraction, ...] = ()
    unit: Unit | None = None
    source: SpecPath | None = None
    what: str = ""


def texts_of(shapes: Iterable[Shape]) -> Iterator[Text]:
    """Every text among shapes, however deep."""
    for shape in shapes:
        match shape:
            case Text():
                yield shape
            case Group():
                yield from texts_of(shape.children)
            case Use():
                yield from texts_of(shape.symbol.shapes)


def said_in(figure: Figure, subject: Subject, sources: Sources) -> Iterator[Said]:
    """What the texts of a figure in a section about `subject` are to say."""
    asked, texts = figure.subject, list(texts_of(figure.shapes))
    match asked:
        case NumberedLayout():
            yield from _on_layout(asked, texts, subject, sources)
        case CutFigure(number, stage) | LensFigure(number, stage):
            sheet = next(one for one in sources.resolved.sheets if one.index == number)
            name = f"stage {stage}" if isinstance(asked, CutFigure) else f"stage {stage}, true size"
            yield from (_at_trimmer(text, name, sheet, sheet.stages[stage - 1], sources) for text in texts)
        case _:
            name = _name(figure)
            yield from (_elsewhere(text, asked, name, subject, sources) for text in texts)


def _name(figure: Figure) -> str:
    """What a figure is called among those of its section, whatever the numbers of sheets and steps are."""
    match figure.subject:
        case PieceMap():
            return "map"
        case StepFigure(step=step):
            return f"step {step}"
        case SignFigure(sign=sign):
            return f"sign of {sign.value}"
        case _:
            return figure.name


# At the trimmer.


def _at_trimmer(text: Text, name: str, sheet: CutSheet, stage: Stage, sources: Sources) -> Said:
    """A text of a stage's figure; the lens says fewer of them."""
    said, unit = Said(name, text.text, Kind.WORDS), sources.resolved.kit.unit
    match text.role:
        case "scale":
            return replace(said, kind=Kind.NUMERAL, source=sources.of_scale())
        case "marker":
            number = next(numerals(text.text))
            where = next((cut.where for cut in stage.cuts if cut.number == number), None)
            return replace(said, kind=Kind.CUT, value=(number,) if where else (), source=where)
        case "piece":
            return replace(said, kind=Kind.PIECE, source=_pieces(text.text, sheet, sources))
        case "dimension":
            value, where = _width(text.text, stage)
            return replace(said, kind=Kind.DIMENSION, value=value, unit=unit, source=where)
        case _:
            return said


def _pieces(text: str, sheet: CutSheet, sources: Sources) -> SpecPath | None:
    """Where the pieces of these letters come from; None if one of them is no piece of the sheet."""
    found = [sources.of_piece(sheet, str(letters)) for letters in tokens(text)]
    return found[0] if found and None not in found else None


def _width(text: str, stage: Stage) -> tuple[tuple[Fraction, ...], SpecPath | None]:
    """What a dimension stands for: the piece's height, or a strip's width, or so many times that; and whence.

    Of what is printed rounded it is the nearest there is.
    """
    printed = tuple(numerals(text))
    found: list[tuple[tuple[Fraction, ...], SpecPath]] = [((stage.seen.height,), stage.where)]
    for width, run in groupby(stage.strips, key=lambda strip: strip.end - strip.start):
        alike = len(list(run))
        where = next((cut.where for cut in stage.cuts if _bounds(stage, cut.reading, width)), stage.where)
        found += [((width,), where), *(((Fraction(count), width), where) for count in range(2, alike + 1))]
    fitting = [one for one in found if len(one[0]) == len(printed) and one[0][:-1] == printed[:-1]]
    return min(fitting, key=lambda one: abs(one[0][-1] - printed[-1]), default=((), None))


def _bounds(stage: Stage, reading: Fraction, width: Fraction) -> bool:
    """Whether a strip of a width ends or begins at a reading."""
    return any(
        reading in (strip.start, strip.end) for strip in stage.strips if strip.end - strip.start == width
    )


# At the table.


def _on_layout(
    asked: NumberedLayout, texts: Iterable[Text], subject: Subject, sources: Sources
) -> Iterator[Said]:
    """What a finished page is to show, whatever its drawing says, and the zeros of its rulers.

    A text of the drawing that nothing asks for is left out: it will be found to be printed unclaimed.
    """
    yield from _rings_and_flags(asked, subject, sources)
    edge = ("layouts", asked.layout)
    for text in texts:
        if text.role == "zero":
            yield Said("page", text.text, Kind.NUMERAL, (Fraction(0),), source=edge, what="zero")


def _rings_and_flags(asked: NumberedLayout, subject: Subject, sources: Sources) -> Iterator[Said]:
    """A ring for each printed step that has something on the finished page, and each flag with the rings of
    its steps.
    """

    def ring(step: int, what: str) -> Said:
        where = sources.of_step(subject.layout, step)
        return Said("page", str(step), Kind.STEP, (Fraction(step),), source=where, what=what)

    shown = rings_of(sources.resolved.layouts[asked.layout], asked.numbers)
    yield from (ring(each.step, "ring") for each in shown)
    for flag in asked.flags:
        along, value = (
            f"flag {flag.along.value} from {flag.start.value}",
            replace(flag.value, with_unit=False),
        )
        yield Said(
            "page",
            length_text(value),
            Kind.DIMENSION,
            (value.value,),
            value.unit,
            value.source,
            along,
        )
        yield from (ring(step, along) for step in flag.steps)


# Elsewhere.


def _elsewhere(text: Text, asked: object, name: str, subject: Subject, sources: Sources) -> Said:
    """A text of a map, a sign, a pocket, the bar to check the print by."""
    said, unit = Said(name, text.text, Kind.WORDS), sources.resolved.kit.unit
    match asked, text.role:
        case PieceMap(), "piece" if subject.sheet is not None:
            return replace(said, kind=Kind.PIECE, source=_pieces(text.text, subject.sheet, sources))
        case PocketFigure(pocket), _:
            return replace(said, kind=Kind.POCKET, source=sources.of_pocket(pocket, None))
        case PrintCheck(), "dimension":
            length = (check_length(unit),)
            return replace(said, kind=Kind.DIMENSION, value=length, unit=unit, source=("unit",))
        case SignFigure(value=value), "dimension" | "flag":
            return replace(said, kind=Kind.DIMENSION, source=value.source)
        case ((SignFigure() | PrintCheck()), "scale"):
            return replace(said, kind=Kind.NUMERAL, source=sources.of_scale())
        case _:
            return said
