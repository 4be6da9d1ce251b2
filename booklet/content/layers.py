"""Draws what a screen shows step by step: a stage or a layout in layers that come and go."""

from __future__ import annotations

from booklet.content.cutting.labels import strip_labels
from booklet.content.cutting.passes import passes
from booklet.content.cutting.slip import reading_of
from booklet.content.other_unit import other_text, other_unit
from booklet.content.spans import length_text
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.cutting.stage_layers import LayeredStage, LayeredStrip, StagePrint, layered_stage
from booklet.drawing.cutting.views import stage_view
from booklet.drawing.layouts.finished_pages import DRAWN_AT
from booklet.drawing.layouts.layout_layers import layered_layout
from booklet.drawing.layouts.look import Look
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.kit import usual_mark
from booklet.measure.dataclass import dataclass
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit

# Letters and lines that are seen from farther away than a page, in points; a screen shrinks the drawing.
_SEEN_FROM_AFAR = {
    "scale_label_size": 16.0,
    "label_size": 24.0,
    "note_size": 16.0,
    "disc_radius": 13.0,
    "disc_text_size": 18.0,
    "outline_width": 1.6,
}


@dataclass(frozen=True, eq=False)
class LayerArtist:
    """What drawings in layers are made from; compared by identity."""

    resolved: ResolvedKit
    language: Language
    papers: KitPapers
    style: DrawingStyle

    @property
    def seen_from_afar(self) -> DrawingStyle:
        """The style of the artist, larger."""
        return self.style.with_changes(**_SEEN_FROM_AFAR)


def draw_stage_layers(
    artist: LayerArtist, sheet: CutSheet, stage: Stage, width: float, height: float
) -> Figure:
    """A stage at the trimmer, its paper as large as a room in points allows."""
    kit = artist.resolved.kit
    scale = _fitting(stage.seen, artist, width, height)
    words = strip_labels(sheet, stage, artist.language)
    view = stage_view(artist.resolved, sheet, stage, scale, artist.language.labels, words)
    other = other_unit(kit.unit)
    readings = [reading_of(artist.resolved, cut) for cut in stage.cuts]
    gone = _gone(stage)
    layered = LayeredStage(
        view,
        tuple(
            LayeredStrip(drawn, strip.pieces[0].part, *gone[place])
            for place, (drawn, strip) in enumerate(zip(view.strips, stage.strips, strict=True))
        ),
        tuple((length_text(reading), other_text(reading)) for reading in readings),
        other,
        usual_mark(other),
    )
    symbol = artist.papers.sheet(sheet.index, stage.lying.face)
    shown = StagePrint(symbol, sheet.size, stage.taken[0].part, stage.lying)
    return layered_stage(layered, shown, artist.seen_from_afar)


def _gone(stage: Stage) -> list[tuple[int, bool]]:
    """Of each strip the cut after which it is gone, and whether it is what stays in the trimmer."""
    found: dict[object, tuple[int, bool]] = {}
    for one in passes(stage):
        for strip in one.off:
            found[strip.start] = one.cut.number, False
        if one.stays is not None:
            found[one.stays.start] = one.cut.number, True
    return [found[strip.start] for strip in stage.strips]


def _fitting(size: Size, artist: LayerArtist, width: float, height: float) -> Scale:
    """The largest round scale at which a size fits a room."""
    for scale in ROUND_SCALES:
        wide, high = scale.size(size, artist.resolved.kit.unit)
        if wide <= width and high <= height:
            return scale
    return ROUND_SCALES[-1]


def draw_layout_layers(artist: LayerArtist, index: int, numbers: tuple[int, ...]) -> Figure:
    """A layout, at the scale at which finished pages are drawn: what they have in common is written once."""
    layout = artist.resolved.layouts[index]
    look = Look(layout, artist.resolved, artist.papers, DRAWN_AT)
    return layered_layout(look, numbers, artist.style, f"layout-{layout.id}-layers")
