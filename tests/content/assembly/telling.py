"""What a page says whose steps are typed in YAML, with lengths as a hand types them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TypeVar

from booklet.content.assembly.section import layout_sections
from booklet.content.blocks import Block, LayoutView, Paragraph, Section, StepItem, StepList, StepPart
from booklet.content.figures import Flag, NumberedLayout
from booklet.content.spans import Line, Span, StepRef, plain_text
from booklet.content.words.language import ENGLISH
from booklet.kit.finding import Severity
from booklet.kit.kit import Kit
from booklet.measure.length import Unit
from booklet.placing.place_layouts import place_layouts
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import Ledger
from tests.placing.layouts import PIECES, kit_of, pieces, steps_of

B = TypeVar("B", bound=Block)
_FRACTION = re.compile("([0-9]?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+)")


def typed(said: Line) -> str:
    """A line as it would be typed: fractions as `6 1/4`, a ring as `(2)`, every space a plain one."""

    def plain(found: re.Match[str]) -> str:
        whole = f"{found[1]} " if found[1] else ""
        return whole + unicodedata.normalize("NFKC", found[2]).replace("\u2044", "/")

    text = "".join(f"({span.number})" if isinstance(span, StepRef) else plain_text((span,)) for span in said)
    return _FRACTION.sub(plain, text).replace("\u00a0", " ")


def resolved(kit: Kit, sizes: Mapping[str, str] = PIECES) -> ResolvedKit:
    """A kit whose pieces come from nowhere, so that they have no labels."""
    layouts = place_layouts(kit, pieces(sizes, kit.unit))
    return ResolvedKit(kit, Path(), (), Ledger(()), layouts)


def section(steps: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES, **more: object) -> Section:
    """The section of a page of these steps that is as it should be."""
    done = resolved(kit_of({"steps": steps_of(steps), **more}, unit=unit), sizes)
    (layout,) = done.layouts
    assert [finding for finding in layout.findings if finding.severity is Severity.ERROR] == []
    (only,) = layout_sections(done, ENGLISH)
    return only


def block(one: Section, kind: type[B]) -> B:
    """The first block of a kind."""
    return next(found for found in one.blocks if isinstance(found, kind))


def items(steps: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES) -> tuple[StepItem, ...]:
    """The printed steps of a page."""
    return block(section(steps, unit, sizes), StepList).steps


def parts(steps: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES) -> list[StepPart]:
    """The parts of all printed steps of a page, in order."""
    return [part for item in items(steps, unit, sizes) for part in item.parts]


def said(steps: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES) -> list[str]:
    """What each part of a page says, lengths as typed."""
    return [typed(part.said) for part in parts(steps, unit, sizes)]


def last(steps: str) -> str:
    """What the last part of a page says."""
    return said(steps)[-1]


def flags(steps: str) -> tuple[Flag, ...]:
    """The flags of a page’s numbered figure."""
    figure = block(section(steps), LayoutView).picture.figure
    assert isinstance(figure, NumberedLayout)
    return figure.flags


def lines_of(one: Section) -> Iterator[Line]:
    """Every line of a section of a layout."""
    yield from (one.title, one.lead)
    for found in one.blocks:
        match found:
            case LayoutView():
                yield found.title
                yield from (need.text for need in found.needs)
            case Paragraph():
                yield found.text
            case StepList():
                for item in found.steps:
                    for part in item.parts:
                        yield from (part.head, part.said, part.tip)


def spans_of(sections: Sequence[Section]) -> list[Span]:
    """Every span that these sections print."""
    return [span for one in sections for said_line in lines_of(one) for span in said_line]
