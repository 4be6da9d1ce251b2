"""What cutting a sheet gives: stages at the trimmer, cuts, strips, pieces, and the work that it was."""

from __future__ import annotations

from booklet.cutting.finish import NOTHING_DONE, Finish
from booklet.cutting.orientation import Orientation
from booklet.kit.fields import Turn
from booklet.kit.finding import Finding, SpecPath
from booklet.kit.sheet import Sheet
from booklet.kit.table_work import WorkStep
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.identity_enum import IdentityEnum
from booklet.measure.length import Size


class Fate(IdentityEnum):
    """What becomes of a piece after the cut that made it."""

    KEPT = "kept"
    CUT_AGAIN = "cut again"
    SPARE = "spare"
    SCRAP = "scrap"


@dataclass(frozen=True)
class Piece:
    """What a cut leaves: its label (sheet number and letter; scrap has none), its name, and its part.

    `part` is its rectangle on the sheet's front; `copy` says of which sheet, where several are cut
    together.  `lying` is how it lay when it was cut, `finish` what was done to it at the cutting table, as it
    is seen upright.
    """

    label: str
    name: str
    sheet_index: int
    copy: int
    part: ExactRect
    lying: Orientation
    fate: Fate
    where: SpecPath
    is_turned: bool = False
    finish: Finish = NOTHING_DONE

    @property
    def size(self) -> Size:
        """Seen upright: width by height."""
        return self.part.size.turned if self.is_turned else self.part.size

    @property
    def is_useful(self) -> bool:
        """Whether it is more than scrap."""
        return self.fate is not Fate.SCRAP

    @property
    def key(self) -> tuple[int, int, ExactRect]:
        """Its identity: sheet, copy and part."""
        return (self.sheet_index, self.copy, self.part)


@dataclass(frozen=True)
class Cut:
    """One pass of the blade, numbered through the sheet; approximate on printed register marks."""

    number: int
    reading: Fraction
    approximate: bool
    where: SpecPath


@dataclass(frozen=True)
class Strip:
    """What lies between two neighbouring readings: one piece of each paper that was cut together."""

    start: Fraction
    end: Fraction
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class Stage:
    """One cut step carried out: what is taken, how it lies, its cuts in order, its strips from zero.

    It has at least one piece, one cut and two strips.  `lying` and `seen` (along the scale by along the
    blade) are those of the first piece taken; all have the same size as they lie.  The papers lie in each
    strip in the order in which they were taken.
    """

    number: int
    taken: tuple[Piece, ...]
    turn: Turn | None
    lying: Orientation
    seen: Size
    cuts: tuple[Cut, ...]
    strips: tuple[Strip, ...]
    tip: str | None
    where: SpecPath


@dataclass(frozen=True)
class TableWork:
    """Work of scissors or punches carried out, numbered among the cuts, after so many stages.

    `taken` are the pieces as they were, `left` what lies there afterwards: of each its parts in order, or the
    piece itself, and what was trimmed off.
    """

    number: int
    after: int
    step: WorkStep
    taken: tuple[Piece, ...]
    left: tuple[Piece, ...]
    where: SpecPath


@dataclass(frozen=True)
class CutSheet:
    """A sheet with its cuts carried out.

    `number` is printed on it; `whole` is the sheet before cutting, once for every copy; `pieces` are what
    lies on the bench after the last cut, scrap too: together they are the whole paper, exactly.  `works` are
    what scissors and punches did between the stages.
    Where cuts are not carried out, for a reason that is reported elsewhere, `unmade` are the names of the
    pieces that they were to leave, and `uncut` of those that they were to take.
    """

    sheet: Sheet
    index: int
    number: int
    size: Size
    whole: tuple[Piece, ...]
    stages: tuple[Stage, ...]
    pieces: tuple[Piece, ...]
    findings: tuple[Finding, ...]
    unmade: tuple[str, ...] = ()
    uncut: tuple[str, ...] = ()
    works: tuple[TableWork, ...] = ()

    @property
    def kept(self) -> tuple[Piece, ...]:
        """The pieces that are filed for a layout."""
        return tuple(piece for piece in self.pieces if piece.fate is Fate.KEPT)

    @property
    def scrap(self) -> tuple[Piece, ...]:
        """What nothing uses."""
        return tuple(piece for piece in self.pieces if not piece.is_useful)


@dataclass(frozen=True)
class SheetWork:
    """Passes of the blade, settings of the scale, turns in the hand, and scrap as a share of the paper."""

    cuts: int
    settings: int
    turns: int
    scrap_share: Fraction


def sheet_work(cut: CutSheet) -> SheetWork:
    """Count the work of one sheet; a reading that follows itself needs no new setting."""
    readings = [c.reading for stage in cut.stages for c in stage.cuts]
    settings = sum(a != b for a, b in zip(readings, [None, *readings], strict=False))
    paper = cut.size.area * cut.sheet.count
    scrap = sum((piece.part.area for piece in cut.scrap), Fraction(0))
    turns = sum(stage.turn is not None for stage in cut.stages)
    return SheetWork(len(readings), settings, turns, scrap / paper)
