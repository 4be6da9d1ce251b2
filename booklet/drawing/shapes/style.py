"""How figures look: colours made from one accent, line widths and lettering after ISO 128 and ISO 3098."""

from __future__ import annotations

from typing import Any, Self

from booklet.drawing.shapes.figure import BLACK, WHITE, Cap, Colour, Join, Stroke
from booklet.drawing.shapes.fonts import Font, size_for_cap_height
from booklet.measure.dataclass import dataclass, replace

POINTS_PER_MM = 360 / 127  # 1 in = 25.4 mm = 72 points

# Widths of ISO 128-2 (from memory): wide to narrow 2:1; 0.18 mm is the least that prints safely.
_WIDE_MM = 0.5
_NARROW_MM = 0.25
_FINEST_MM = 0.18
# ISO 128-2 (from memory): parallel lines stand at least 0.7 mm apart.
LEAST_LINE_DISTANCE = 0.7 * POINTS_PER_MM

# ISO 3098 letters drawings in heights of 2.5, 3.5, 5 mm; 2.5 mm is the floor for a dimension.  A capital of
# Booklet Sans is 0.656 em high, so 2.5 mm of height is 10.80 pt of font size: above the 9.9 pt that a face
# with taller capitals would need, and the member reads it at arm's length beside the trimmer.
_DIMENSION_CAP_MM = 2.5


def mm(value: float) -> float:
    """Millimetres as points."""
    return value * POINTS_PER_MM


@dataclass(frozen=True)
class Palette:
    """The colours of a page: text and outlines, thin rules, the accent and its tint, paper."""

    ink: Colour
    rule: Colour
    accent: Colour
    accent_tint: Colour
    paper: Colour


# WCAG 2 (from memory): text wants a contrast of 4.5 to its ground; the accent is that of titles.
_TEXT_CONTRAST = 4.5
# A grey of contrast 3.5 to white: a line is seen from 3 on.
_RULE = Colour("#8a8a8a")


def palette_from_accent(accent: Colour) -> Palette:
    """A palette about one accent colour, darkened until it stands out on white."""
    while accent.contrast(WHITE) < _TEXT_CONTRAST:
        accent = accent.darker(0.06)
    return Palette(
        ink=BLACK,
        rule=_RULE,
        accent=accent,
        accent_tint=accent.lighter(0.885),
        paper=WHITE,
    )


# One ink: the accent is the ink, a tint under words is paper, a rule is a grey that its writer makes quiet.
BLACK_PALETTE = Palette(ink=BLACK, rule=_RULE, accent=BLACK, accent_tint=WHITE, paper=WHITE)
TEAL = palette_from_accent(Colour("#17597a"))


@dataclass(frozen=True)
class DrawingStyle:
    """Every measure of a drawing, in points.  Vary it with `with_changes`."""

    palette: Palette = TEAL
    # Lines.
    outline_width: float = mm(_WIDE_MM)
    dimension_width: float = mm(_NARROW_MM)
    fine_width: float = mm(_FINEST_MM)
    cut_width: float = mm(_WIDE_MM)
    cut_dash: tuple[float, ...] = (6.0, 3.2)
    # Lettering.
    dimension_size: float = round(size_for_cap_height(Font.SANS, mm(_DIMENSION_CAP_MM)), 2)
    label_size: float = 13.0
    note_size: float = 9.0
    scale_label_size: float = 9.0
    # Dimension lines.  A visible gap at the outline (ISO 129-1); arrowheads filled at 3:1 (common teaching).
    extension_gap: float = 2.5
    arrow_length: float = 7.5
    arrow_width: float = 2.5
    text_clearance: float = 4.0
    # Markers.
    disc_radius: float = 7.6
    disc_text_size: float = 10.8
    # Hatching.
    hatch_distance: float = 5.0

    def with_changes(self, **changes: Any) -> Self:
        """The same style with some measures replaced; an unknown name raises TypeError."""
        return replace(self, **changes)

    @property
    def outline(self) -> Stroke:
        """The stroke of an outline."""
        return Stroke(self.palette.ink, self.outline_width)

    @property
    def narrow(self) -> Stroke:
        """The stroke of dimension, extension and leader lines: half an outline's width."""
        return Stroke(self.palette.ink, self.dimension_width)

    @property
    def fine(self) -> Stroke:
        """The stroke of hatching and of a scale's marks."""
        return Stroke(self.palette.ink, self.fine_width)

    @property
    def cut(self) -> Stroke:
        """The dashed stroke along which the blade runs."""
        return Stroke(self.palette.accent, self.cut_width, self.cut_dash, Cap.BUTT, Join.MITRE)
