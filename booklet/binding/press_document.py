"""The page for the print shop as a document: files, paper, print, and how the sheets become a booklet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.binding.binding import Binding, Folded
from booklet.binding.pdfx import VERSION
from booklet.binding.pictures import MOST_DOTS
from booklet.binding.press_file import PressStyle
from booklet.binding.sides import ImposedSide
from booklet.binding.signature import PAGES_PER_SHEET
from booklet.content.blocks import Column, Document, Paragraph, Row, RowKind, Section, Table
from booklet.content.names import kit_name
from booklet.content.spans import Extent, Length, Line, Precision, Role, line
from booklet.content.words.english.press import EnglishPress
from booklet.content.words.language import Language
from booklet.kit.kit import Kit
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, round_to
from booklet.measure.length import Unit
from booklet.measure.words import APPROXIMATELY, exact_length

# As finely as the thickness of paper is told (common practice, no source): micrometres and ten-thousandths of
# an inch.
_THIN = {
    Unit.MILLIMETRE: Fraction(1, 1000),
    Unit.CENTIMETRE: Fraction(1, 10_000),
    Unit.INCH: Fraction(1, 10_000),
}


@dataclass(frozen=True)
class PressJob:
    """What is printed: the names of both files, how many pages, the sides of the sheets, and how."""

    files: tuple[str, str]
    pages: int
    sides: Sequence[ImposedSide]
    style: PressStyle
    fonts: tuple[str, ...]


def press_document(kit: Kit, job: PressJob, language: Language) -> Document:
    """The page for the print shop, as one section."""
    words = language.press
    title = words.title(kit_name(kit))
    rows = (
        *_group(words.files, _files(job, words)),
        *_group(words.paper, _paper(job, words)),
        *_group(words.print_, _print(job, words)),
        *_group(words.finish, _finish(job, words)),
    )
    table = Table((Column(words.heads[0], is_strong=True), Column(words.heads[1], share=1.0)), rows)
    blocks = (Paragraph(line(words.of_edition(job.style.edition), words.lead)), table)
    section = Section("press", title, blocks)
    return Document(language.code, title, line(), words.subject, (section,), (), section, language.furniture)


_Told = tuple[Line, Line]


def _group(title: Line, told: Iterator[_Told]) -> tuple[Row, ...]:
    return (Row((line(), title), RowKind.GROUP), *(Row(each) for each in told))


def _files(job: PressJob, words: EnglishPress) -> Iterator[_Told]:
    pages, sheets = job.files
    yield words.pages_file, words.pages_said(pages, job.pages)
    press = job.style.binding.press
    size = Extent(press.size.turned, press.unit, (), with_unit=True)
    yield words.sheets_file, words.sheets_said(sheets, len(job.sides) // 2, press.name, size)
    yield words.standard, words.standard_said(VERSION)
    yield words.fonts, words.fonts_said(job.fonts)


def _paper(job: PressJob, words: EnglishPress) -> Iterator[_Told]:
    page, creep = job.style.binding.page, _style(job.style.binding).creep
    yield words.size, words.size_said(Extent(page.size, page.unit, (), with_unit=True))
    yield words.bleed, words.bleed_said(_length(job.style.binding.bleed, page.unit))
    yield words.stock, words.stock_said
    if creep is not None:
        yield words.caliper, words.caliper_said(_thickness(creep.caliper, page.unit))
    else:
        yield words.caliper, words.no_caliper
    yield words.grain, words.grain_said


def _print(job: PressJob, words: EnglishPress) -> Iterator[_Told]:
    yield words.inks, words.inks_said
    yield words.condition, words.condition_said(job.style.inks.condition.value, job.style.meaning)
    yield words.ink_limit, words.ink_limit_said(f"{float(job.style.inks.limit):g}")
    yield words.black, words.black_said
    yield words.trapping, words.trapping_said
    yield words.pictures, words.pictures_said(MOST_DOTS)


def _finish(job: PressJob, words: EnglishPress) -> Iterator[_Told]:
    page, style = job.style.binding.page, _style(job.style.binding)
    depths = [side.depth for side in job.sides]
    signatures = 1 + max(side.signature for side in job.sides)
    yield words.fold, words.fold_said
    yield words.nest, _nest(job, signatures, 1 + max(depths), words)
    if style.creep is not None:
        yield words.creep, words.creep_said(_thickness(style.creep.shift(max(depths)), page.unit))
    else:
        yield words.creep, words.no_creep
    yield words.staples, words.staples_said(_length(page.upright.height / 4, page.unit), signatures)
    yield words.trim, words.trim_said


def _nest(job: PressJob, signatures: int, each: int, words: EnglishPress) -> Line:
    if signatures > 1:
        return words.signatures_said(signatures, each, len(job.sides) // 2 - (signatures - 1) * each)
    middle = PAGES_PER_SHEET * each // 2
    return words.nest_said(each, (job.pages, 1), (middle, middle + 1))


def _style(binding: Binding) -> Folded:
    if not isinstance(binding.style, Folded):
        raise TypeError("a print shop's booklet is folded")
    return binding.style


def _thickness(points: Fraction, unit: Unit) -> str:
    """What is as thin as paper, in decimals: the marks of a rule are too coarse for it."""
    value = points / unit.points
    rounded = round_to(value, _THIN[unit])
    nearly = "" if rounded == value else f"{APPROXIMATELY}\u00a0"
    return f"{nearly}{exact_length(rounded, unit)}\u00a0{unit.value}"


def _length(points: Fraction, unit: Unit) -> Length:
    return Length(points / unit.points, unit, Role.LIMIT, (), Precision.EXACT, with_unit=True)
