"""The sheet to sign as a document: summary, sheets and layouts, sums, the author's numbers, files."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.blocks import (
    Align,
    Block,
    Column,
    Document,
    Heading,
    ItemList,
    Marker,
    Paragraph,
    Row,
    RowKind,
    Section,
    Table,
    Tick,
    Tone,
    WritingLines,
)
from booklet.content.names import kit_name
from booklet.content.spans import Length, Line, Role, joined, line
from booklet.content.words.english.proof import EnglishProof
from booklet.content.words.language import Language
from booklet.kit.source import Source
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from booklet.placing.resolved import ResolvedKit
from booklet.proof.claim import Claim
from booklet.proof.sign import PartProof, SignReport
from booklet.proof.sums import Margin, Sum, SumId

# A list of what failed is cut off after so many lines: the file is wholly wrong then.
_MOST_FAILED = 60
_WRITING_LINES = 3


@dataclass(frozen=True)
class Told:
    """What the sheet is made of besides its report: the edition, and in words what failed."""

    edition: str
    failed: Sequence[str]


def sign_document(
    resolved: ResolvedKit, report: SignReport, told: Told, source: Source, language: Language
) -> Document:
    """The sheet to sign, as one section."""
    words, kit = language.proof, resolved.kit
    title = words.title(kit_name(kit))
    blocks = (
        Paragraph(line(words.result(report.failed, report.unchecked), " ", words.of_edition(told.edition))),
        Heading(words.summary),
        _summary(report, words),
        *_failed(told.failed, words),
        Heading(words.parts),
        _parts(report, kit.unit, words),
        WritingLines(words.signing, words.sign_text, words.sign_heads, _WRITING_LINES),
        Heading(words.sums),
        _sums(report, kit.unit, words),
        *_least_supply(report, kit.unit, words),
        *_own(report.own, source, words),
        Heading(words.files),
        _files(report, words),
    )
    section = Section("proof", title, blocks)
    return Document(language.code, title, line(), words.subject, (section,), (), section, language.furniture)


def _number(value: int) -> Line:
    return line(str(value))


def _summary(report: SignReport, words: EnglishProof) -> Table:
    heads = words.summary_heads
    columns = (Column(heads[0], share=1.0), *(Column(head, Align.END) for head in heads[1:]))
    rows = [
        Row(
            (
                words.topic(topic.id, topic.file),
                *map(_number, (topic.looked_at, topic.held, topic.failed, topic.unchecked)),
            )
        )
        for topic in report.topics
    ]
    return Table(columns, tuple(rows))


def _failed(failed: Sequence[str], words: EnglishProof) -> Iterator[Block]:
    if failed:
        yield Heading(words.failed)
        shown = [line(each) for each in failed[:_MOST_FAILED]]
        rest = len(failed) - _MOST_FAILED
        yield ItemList((*shown, *([words.more(rest)] if rest > 0 else [])), Marker.NONE)


# Sheets and layouts.


def _parts(report: SignReport, unit: Unit, words: EnglishProof) -> Table:
    heads = words.parts_heads
    columns = (
        Column(heads[0], Align.CENTRE),
        Column(heads[1], Align.CENTRE),
        Column(heads[2], Align.CENTRE),
        Column(heads[3], Align.END),
        Column(heads[4], share=1.0),
        *(Column(head) for head in heads[5:]),
    )
    rows: list[Row] = []
    for title, parts in ((words.sheets, report.sheets), (words.layouts, report.layouts)):
        if parts:
            rows.append(Row((line(), title), RowKind.GROUP))
            rows += [Row(tuple(_part(part, unit, words))) for part in parts]
    return Table(columns, tuple(rows))


def _part(part: PartProof, unit: Unit, words: EnglishProof) -> Iterator[Line | Tick]:
    yield from (Tick(), Tick(), Tick(), _number(part.number), line(part.name))
    yield joined([line(str(page)) for page in part.pages], ", ")
    yield words.matched(part.matched, part.numbers)
    yield _number(part.lengths)
    yield words.none if part.farthest is None else line(f"{part.farthest:.4f}\u00a0mm")
    yield words.sums_close(sum(one.closes for one in part.sums), len(part.sums))
    yield _margin(part.margin, unit, words)


def _margin(margin: Margin | None, unit: Unit, words: EnglishProof) -> Line:
    if margin is None:
        return words.none
    room = Length(margin.room, unit, Role.LIMIT, (), with_unit=True)
    return words.margin(room, margin.id.value)


# Sums.


def _sums(report: SignReport, unit: Unit, words: EnglishProof) -> Table:
    heads = words.sums_heads
    columns = (Column(heads[0]), Column(heads[1]), Column(heads[2], share=1.0), Column(heads[3]))
    parts = (*report.sheets, *report.layouts)
    rows = [_sum(line(part.name), one, unit, words) for part in parts for one in part.sums]
    rows += [_sum(line(one.name), one, unit, words) for one in report.supplies]
    return Table(columns, tuple(rows))


def _sum(of: Line, one: Sum, unit: Unit, words: EnglishProof) -> Row:
    what = {
        SumId.STRIPS: words.strips(one.stage or 0),
        SumId.AREA: words.area,
        SumId.PIECES: words.pieces,
        SumId.USED: words.used,
        SumId.SUPPLY: words.supply,
    }[one.id]
    parts = [words.part(part.count, _value(part.value, unit)) for part in one.parts]
    left = _value(one.left, unit) if one.left is not None else ()
    said = words.added(parts, _value(one.total, unit), left)
    return Row((of, what, said, words.yes if one.closes else words.no))


def _value(value: Fraction, unit: Unit) -> Line:
    return line(print_length(value, unit))


def _least_supply(report: SignReport, unit: Unit, words: EnglishProof) -> Iterator[Block]:
    least = report.least_supply
    if least is not None:
        left = _value(least.left or Fraction(0), unit)
        yield Paragraph(words.least_supply(line(least.name), left), Tone.NOTE)


# What is left to a person.


def _own(own: Sequence[Claim], source: Source, words: EnglishProof) -> Iterator[Block]:
    if own:
        yield Heading(words.own)
        items = [words.own_number(each.page, each.said, _place(each, source)) for each in own]
        yield ItemList(tuple(items), Marker.TICK)


def _place(claim: Claim, source: Source) -> str:
    return f"{source.name}:{source.line(claim.source)}" if claim.source else source.name


def _files(report: SignReport, words: EnglishProof) -> Table:
    heads = words.files_heads
    columns = (Column(heads[0]), Column(heads[1], Align.END), Column(heads[2], share=1.0))
    rows = [Row((line(file.name), _number(file.leaves), line(file.digest))) for file in report.files]
    return Table(columns, tuple(rows))
