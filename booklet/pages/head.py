"""What a section begins with: its number large, its title, what it is about, and a rule below."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

from booklet.content.blocks import Section
from booklet.content.spans import Line, Words, line
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.measure.dataclass import replace
from booklet.pages.boxes import Rule, spaced
from booklet.pages.flow import column_height, stacked
from booklet.pages.setup import PageSetup
from booklet.pages.text import paragraph
from booklet.pages.type import hex_colour

_AFTER_NUMBER = 11.0
_LEAD_BEFORE = 2.0
_RULE, _RULE_BEFORE, _RULE_AFTER = 0.9, 5.0, 6.5
_MOST_LINES = 2
# A head that takes more of a page's height has its lead below it.
_MOST_HEAD = 0.5
# How large a head is where a section begins below another, and the white above it.
_JOINED, _JOINED_BEFORE = 0.72, 15.0


def section_head(
    setup: PageSetup, section: Section, width: float, *, is_joined: bool = False
) -> list[Flowable]:
    """The head of a section, kept with what follows; smaller where it joins a page that has begun.

    A lead of many lines stands below the rule, where it may go on over the page.
    """
    share = _JOINED if is_joined else 1.0
    head = SectionHead(setup, section, width, share)
    lead: list[Flowable] = []
    if section.lead and head.wrap(width, 0.0)[1] > _MOST_HEAD * setup.grid.text_height:
        lead = [spaced(paragraph(section.lead, setup.styles.lead), 0.0, _RULE_AFTER)]
        head = SectionHead(setup, replace(section, lead=()), width, share)
        head.section = section
    rule = Rule(setup.palette.accent, _RULE, _RULE_BEFORE, _RULE_AFTER)
    head.keepWithNext = rule.keepWithNext = True
    head.spaceBefore = _JOINED_BEFORE if is_joined else 0.0
    return [head, rule, *lead]


def continued_head(setup: PageSetup, section: Section) -> list[Flowable]:
    """The head of a page on which a section goes on: number, title, and that it does."""
    number = line(Words(f"{section.number}  "), section.title) if section.number else section.title
    said = paragraph(line(number, setup.words.continued), setup.styles.group)
    return [said, Rule(setup.palette.accent, _RULE, 3.0, _RULE_AFTER)]


def fitting_title(said: Line, styles: Sequence[ParagraphStyle], width: float) -> Flowable:
    """A title in the largest of some styles in which it takes two lines at most; in the smallest at last."""
    for style in styles:
        title = paragraph(said, style)
        if title.wrap(width, 1000.0)[1] <= _MOST_LINES * style.leading:
            break
    return title


class SectionHead(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Kicker, number, title and lead: the number hangs from the capitals of the title."""

    def __init__(self, setup: PageSetup, section: Section, width: float, share: float) -> None:
        super().__init__()
        self.section = section
        self.colour = setup.palette.accent
        self.number, self.size = section.number, setup.sizes.number * share
        self.font = pdf_font_name(Font.SERIF_BOLD)
        wide = text_width(self.number, Font.SERIF_BOLD, self.size) + _AFTER_NUMBER if self.number else 0.0
        self.indent = min(wide, width / 3)
        has_kicker = section.kicker and share == 1.0
        kicker = [paragraph(section.kicker, setup.styles.kicker)] if has_kicker else []
        styles = [style for style in setup.styles.titles if style.fontSize <= share * setup.sizes.title]
        title = fitting_title(section.title, styles, width - self.indent)
        lead = [spaced(paragraph(section.lead, setup.styles.lead), _LEAD_BEFORE, 0.0)] if section.lead else []
        self.parts = self.contents = (*kicker, title, *lead)
        self.title = title

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        """As wide as the column."""
        self.placed = stacked(self.parts, width - self.indent)
        self.height = max(column_height(self.placed), self.size * 0.9 if self.number else 0.0)
        return width, self.height

    def draw(self) -> None:
        """Draw the number and the words."""
        for placed in self.placed:
            placed.flowable.drawOn(self.canv, self.indent, self.height - placed.bottom)
        if self.number:
            title = next(placed for placed in self.placed if placed.flowable is self.title)
            style = self.title.style
            top = title.y + style.fontSize * 0.95 - cap_height(Font.SERIF_BOLD, style.fontSize)
            self.canv.setFillColor(hex_colour(self.colour))
            self.canv.setFont(self.font, self.size)
            self.canv.drawString(0, self.height - top - cap_height(Font.SERIF_BOLD, self.size), self.number)
