"""The kinds of tamperings: how each is made, and which check of the proof is to catch it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from booklet.measure.length import Unit
from tests.tampering import pages, paths, texts
from tests.tampering.record import Tampering
from tests.tampering.streams import Sheet


class Alters(Enum):
    """What a tampering alters."""

    NUMBER = "a number"
    LENGTH = "a length"
    ORDER = "an order"
    LOOK = "a look"


class Of(Enum):
    """Which finished file is tampered with."""

    READING = "the reading file"
    PRINT = "the print file"


@dataclass(frozen=True)
class Kind:
    """A kind of tampering: what it alters, in which file, the check that catches it, all there are of it."""

    name: str
    alters: Alters
    of: Of
    check: str
    all_of: Callable[[Sequence[Sheet], Unit], Iterator[Tampering]]

    @property
    def moves_pages(self) -> bool:
        """Whether it brings pages to other places."""
        return self.alters is Alters.ORDER and not self.name.endswith("turned")


def _plainly(
    made: Callable[[Sequence[Sheet]], Iterator[Tampering]],
) -> Callable[[Sequence[Sheet], Unit], Iterator[Tampering]]:
    return lambda sheets, _: made(sheets)


def _halves(sides: Sequence[Sheet]) -> Iterator[Tampering]:
    yield from pages.halves_exchanged(sides)
    yield from pages.halves_of_two_sides(sides)


def _kinds() -> Iterator[Kind]:
    number, length, order, look = Alters
    read, press = Of
    told = "numbers read back against claims"
    drawn = "lengths measured against claims"
    yield Kind("digit", number, read, told, _plainly(texts.digits))
    yield Kind("numbers exchanged", number, read, f"{told}, in order", _plainly(texts.numbers_exchanged))
    yield Kind("readings exchanged", number, read, f"{told}, in order", _plainly(texts.readings_exchanged))
    yield Kind("letter", number, read, "letters of pieces as claims", _plainly(texts.letters))
    yield Kind(
        "letters exchanged", number, read, "letters on their pieces", _plainly(texts.letters_exchanged)
    )
    yield Kind("ring renumbered", number, read, told, _plainly(texts.rings_renumbered))
    yield Kind("rings exchanged", number, read, "rings on their things", _plainly(texts.rings_exchanged))
    yield Kind("ring moved", number, read, "rings on their things", _plainly(texts.rings_moved))
    yield Kind("cut line", length, read, f"{drawn}: readings", paths.cut_lines_moved)
    yield Kind("flag", length, read, f"{drawn}: flags", paths.flags_moved)
    yield Kind("dimension", length, read, f"{drawn}: dimensions", paths.dimensions_moved)
    yield Kind("outline", length, read, f"{drawn}: outlines", paths.outlines_moved)
    yield Kind("mark", length, read, f"{drawn}: every mark of a ruler", paths.marks_moved)
    yield Kind("mark longer", look, read, "marks of one rank alike", _plainly(paths.marks_lengthened))
    yield Kind("figure stretched", length, read, f"{drawn}: stated scale", _plainly(paths.figures_stretched))
    yield Kind("true-size ruler", length, read, f"{drawn}: stated scale", _plainly(paths.bars_stretched))
    yield Kind("placing", length, read, f"{drawn}: outlines of placed things", paths.placings_moved)
    yield Kind("pages exchanged", order, read, told, _plainly(pages.pages_exchanged))
    yield Kind("page doubled", order, read, told, _plainly(pages.pages_doubled))
    yield Kind("page dropped", order, read, told, _plainly(pages.pages_dropped))
    yield Kind("page turned", order, read, "pages upright", _plainly(pages.pages_turned))
    yield Kind("halves exchanged", order, press, "halves of the print file", _plainly(_halves))
    yield Kind("sides exchanged", order, press, "halves of the print file", _plainly(pages.pages_exchanged))
    yield Kind("side dropped", order, press, "halves of the print file", _plainly(pages.pages_dropped))
    yield Kind("side turned", order, press, "sides upright", _plainly(pages.pages_turned))
    yield Kind("digit on a side", number, press, "halves of the print file", _plainly(texts.digits))
    yield Kind("cut line on a side", length, press, "paths of the print file", paths.cut_lines_moved)
    yield Kind("placing on a side", length, press, "paths of the print file", paths.placings_moved)
    yield Kind("text dropped", look, read, "words read back", _plainly(texts.lines_dropped))
    yield Kind("row dropped", number, read, told, _plainly(texts.rows_dropped))
    yield Kind("flag dropped", length, read, f"{drawn}: flags", _plainly(paths.flags_dropped))
    yield Kind("dimension dropped", length, read, f"{drawn}: dimensions", _plainly(paths.dimensions_dropped))
    yield Kind("cut line dropped", length, read, f"{drawn}: readings", _plainly(paths.cut_lines_dropped))
    yield Kind("small number", look, read, "type sizes", _plainly(texts.small_numbers))
    yield Kind("thin line", look, read, "line widths", _plainly(paths.lines_thinned))
    yield Kind("coarse picture", look, read, "resolution of pictures", _plainly(pages.pictures_coarsened))


KINDS = {kind.name: kind for kind in _kinds()}
