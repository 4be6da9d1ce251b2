"""The rows of a sheet's pages: figures with their words, and what stands across the page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.cutting.cut_figure import HANG, StageDrawing
from booklet.drawing.shapes.figure import Figure
from booklet.pages.flow import FigureBox, Stack
from booklet.pages.page import Laid

HEADING_GAP = 4.0


@dataclass(frozen=True)
class StageRow:
    """A stage as it goes on a page: its heading over its drawing, its steps beside it, in points.

    `words_x` is where the steps stand.  `views` are the enlarged views of its readings, wherever they stand.
    """

    stage: Stage
    heading: Flowable | None
    heading_height: float
    drawing: StageDrawing
    steps: Stack
    words_x: float
    words_width: float
    views: tuple[Figure, ...]
    bond: int = 0

    @property
    def first_step(self) -> int:
        """The number of its first cut."""
        return self.stage.cuts[0].number

    @property
    def last_step(self) -> int:
        """The number of its last cut."""
        return self.stage.cuts[-1].number

    @property
    def height(self) -> float:
        """How high it stands."""
        return self.heading_height + self.drawing.height

    def laid(self, figures: Mapping[int, Figure], y: float) -> Iterator[Laid]:
        """Everything in its place, the row's top at `y`; `figures` by the numbers of their stages."""
        if self.heading:
            width = self.words_x + self.words_width
            yield Laid(self.heading, 0.0, y, width, self.heading_height - HEADING_GAP)
        y += self.heading_height
        figure = figures[self.stage.number]
        yield Laid(FigureBox(figure), -HANG, y, figure.width, figure.height)
        top = y + self.drawing.beside_top
        yield Laid(self.steps, self.words_x, top, self.words_width, self.steps.height)


@dataclass(frozen=True)
class MoreRow:
    """What of a stage found no room beside its figure: steps or enlarged views across the page.

    Steps want more to stay with the figure than enlarged views do: that is their `bond`.  `title` is what
    must stand over the row where no figure does.
    """

    parts: tuple[Laid, ...]
    height: float
    bond: int
    last_step: int
    first_step: int | None = None
    views: tuple[Figure, ...] = ()
    title: Laid | None = None

    def titled(self) -> MoreRow:
        """The row under its title, if it has one."""
        if self.title is None:
            return self
        down = self.title.height + HEADING_GAP
        moved = tuple(replace(part, y=part.y + down) for part in self.parts)
        return replace(self, parts=(self.title, *moved), height=self.height + down, title=None)

    def laid(self, figures: Mapping[int, Figure], y: float) -> Iterator[Laid]:  # noqa: ARG002 (a row like any)
        """Everything in its place, the row's top at `y`."""
        for part in self.parts:
            yield Laid(part.flowable, part.x, y + part.y, part.width, part.height)


Row = StageRow | MoreRow


def at_head(row: Row) -> Row:
    """A row as it stands where it begins a page."""
    return row.titled() if isinstance(row, MoreRow) else row


@dataclass(frozen=True)
class SheetPlan:
    """A sheet's rows, in cutting order."""

    sheet: CutSheet
    rows: tuple[Row, ...]

    @property
    def stages(self) -> tuple[StageRow, ...]:
        """The rows of its stages."""
        return tuple(row for row in self.rows if isinstance(row, StageRow))
