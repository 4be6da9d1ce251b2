"""The steps of a layout on paper: a filled disc with the number, what is taken and done, a box to tick."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy

from reportlab.platypus import Flowable

from booklet.content.blocks import StepItem, StepList, StepPart
from booklet.content.spans import CutRef, Line, Words, line
from booklet.measure.cache import cached_on
from booklet.pages.boxes import SideBySide, Stack, TickBox, spaced
from booklet.pages.setup import PageSetup
from booklet.pages.text import paragraph

_DISC_COLUMN, _BOX_COLUMN = 18.0, 13.0
# Between the parts of a step's head and what is said of it: wider than between words, a place to break.
_APART = Words("\u00a0 ")


def step_list(setup: PageSetup, block: StepList, width: float, gap: float) -> list[Flowable]:
    """The steps in a column of a width in points, `gap` points apart."""
    return [spaced(copy(_step(step, setup, width)), 0.0, gap) for step in block.steps]


@cached_on
def _step(step: StepItem, setup: PageSetup, width: float) -> Flowable:
    """A step at its height, made once: its distance from the next one is tried."""
    disc = paragraph((CutRef("", step.number),), setup.styles.step_number)
    said = [paragraph(_said(part), setup.styles.step) for part in step.parts]
    rest = width - _DISC_COLUMN - _BOX_COLUMN
    box = TickBox(setup.palette.ink, setup.styles.step, "RIGHT")
    columns: Sequence[tuple[Sequence[Flowable], float]] = [
        ([disc], _DISC_COLUMN),
        ([Stack(said)], rest),
        ([box], _BOX_COLUMN),
    ]
    stacks = SideBySide(columns, 0.0)
    stacks.wrap(width, 0.0)
    return stacks


def _said(part: StepPart) -> Line:
    """What is taken in bold, its labels beside it, then what is done with it, and a tip."""
    said = line(part.head, _APART, part.said) if part.head and part.said else line(part.head, part.said)
    return line(said, " ", part.tip) if part.tip else said
