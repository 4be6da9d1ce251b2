"""The styles that drawings are tried in: the booklet's own, and one of large print."""

from __future__ import annotations

from hypothesis import strategies as st

from booklet.drawing.shapes.labels import FigureLabels
from booklet.drawing.shapes.style import DrawingStyle

STYLE = DrawingStyle()
# Lettering and the room about it are a third larger, lines are as wide as ever.
LARGE = STYLE.with_changes(
    dimension_size=14.4,
    label_size=17.3,
    note_size=12.0,
    scale_label_size=12.0,
    arrow_length=10.0,
    arrow_width=10 / 3,
    text_clearance=5.3,
    disc_radius=10.1,
    disc_text_size=14.4,
)
LABELS = FigureLabels(scale="Scale", scrap="scrap", spare="spare", stop="stop")
STYLES = st.sampled_from([STYLE, LARGE])
