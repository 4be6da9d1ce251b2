"""One stage at the trimmer for a screen: a drawing whose layers come and go as its cuts are made.

Each strip is a layer that says after which cut it is gone, and each cut one with its blade and its reading,
so that one drawing shows the piece as it lies at every cut.  The scale is there in both kinds of unit; who
shows the drawing shows one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.paper_parts import beneath, register_mark, stack_depth
from booklet.drawing.cutting.stage_figure import StageCut, StageStrip, StageView
from booklet.drawing.marks.marker import cut_marker
from booklet.drawing.marks.piece_chip import chip_form, chip_shapes
from booklet.drawing.marks.trimmer_scale import (
    Band,
    Ruler,
    band_hang,
    band_height,
    band_shapes,
    drawn_divisions,
    numerals,
    stem,
)
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import Affine, Box, translation
from booklet.drawing.shapes.figure import (
    Anchor,
    Figure,
    Fill,
    Group,
    Join,
    Line,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    filled_box,
)
from booklet.drawing.shapes.fonts import Font, text_width
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit, convert

# The layers, by the names that a page knows them by; a number is that of a cut.
SHEET_LAYER, STRIP_LAYER, STAYS_LAYER, OFF_LAYER, BLADE_LAYER = "sheet", "strip", "stays", "off", "blade"
KIT_UNIT_LAYER, OTHER_UNIT_LAYER = "kit-unit", "other-unit"

_TICK, _EDGE_GAP = 16.0, 5.0
_BLADE, _CASING, _PAST, _DASHES = 2.6, 1.6, 10.0, (12.0, 5.0)
# How large a reading is, what is left free about it, and how far its figures reach below their line.
_READING, _AROUND, _BELOW_BASELINE = 30.0, 4.0, 0.06
_OUTLINED, _OUTLINE_CASING = 4.0, 7.0
_SEAM = 0.4


@dataclass(frozen=True)
class LayeredStrip:
    """A strip with the print of its first paper: where that lies on the front, and the cut that it leaves by.

    One that `stays` is what the last cut leaves in the trimmer.
    """

    strip: StageStrip
    part: ExactRect
    gone_after: int
    stays: bool


@dataclass(frozen=True)
class LayeredStage:
    """A stage to be drawn in layers; `readings` are its cuts' as they are said, in both units.

    `other` and `other_mark` are the other unit and the mark of its scale.
    """

    view: StageView
    strips: tuple[LayeredStrip, ...]
    readings: tuple[tuple[str, str], ...]
    other: Unit
    other_mark: Fraction


@dataclass(frozen=True)
class StagePrint:
    """What the papers show: the face of a sheet of this size, the part that is in hand, and how it lies."""

    symbol: Symbol
    whole: Size
    part: ExactRect
    lying: Orientation


def layered_stage(stage: LayeredStage, shown: StagePrint, style: DrawingStyle) -> Figure:
    """The drawing with all its layers, each of them a group that bears its name."""
    plan = _Plan(stage, style)
    shapes = (
        Group(tuple(_scale(plan, plan.ruler)), tag=KIT_UNIT_LAYER),
        Group(tuple(_scale(plan, plan.other_ruler)), tag=OTHER_UNIT_LAYER),
        Group(tuple(_strips(plan, shown)), tag=SHEET_LAYER),
        *(_cut(plan, cut, said) for cut, said in zip(stage.view.cuts, stage.readings, strict=True)),
    )
    box = plan.box
    moved = Group(shapes, translation(-box.left, -box.top))
    return Figure(f"{stage.view.name}-layers", box.width, box.height, (moved,))


@dataclass(frozen=True)
class _Plan:
    """Where all of the drawing stands, the outline's top left corner at (0, 0)."""

    stage: LayeredStage
    style: DrawingStyle

    @cached_property
    def sheet(self) -> Box:
        view = self.stage.view
        return Box(0.0, 0.0, *view.scale.size(view.seen, view.unit))

    @cached_property
    def ruler(self) -> Ruler:
        """The scale in the kit's unit, as long as the trimmer's."""
        view = self.stage.view
        return Ruler(view.reach, view.mark, view.unit, view.scale.points(Fraction(1), view.unit), view.zero)

    @cached_property
    def other_ruler(self) -> Ruler:
        """The same scale in the other unit."""
        view, other = self.stage.view, self.stage.other
        length = convert(view.reach, view.unit, other)
        return Ruler(length, self.stage.other_mark, other, view.scale.points(Fraction(1), other), view.zero)

    def band(self, ruler: Ruler) -> Band:
        """The band of a scale over the sheet; it ends before the numeral after its last."""
        size = self.style.scale_label_size
        hang, base = band_hang(size), -_EDGE_GAP
        box = Box(-hang, base - band_height(_TICK, size), self.sheet.right + hang, base)
        return Band(box, base, self.zero, _TICK, size, ruler)

    @property
    def zero(self) -> float:
        return 0.0 if self.stage.view.zero is Edge.LEFT else self.sheet.right

    def x(self, value: Fraction) -> float:
        """Where a value of the kit's unit is drawn."""
        return self.zero + self.ruler.way * self.ruler.at(value)

    def box_of(self, strip: StageStrip) -> Box:
        left, right = sorted((self.x(strip.start), self.x(strip.end)))
        return Box(left, self.sheet.top, right, self.sheet.bottom)

    @cached_property
    def box(self) -> Box:
        """The drawing with room for every layer: readings over the scale, the blade past the foot."""
        top = self.band(self.ruler).box.top - 2 * self.style.disc_radius - _READING - 2 * _AROUND
        band, depth = self.band(self.ruler).box, stack_depth(self.stage.view.papers)
        texts = [text for said in self.stage.readings for text in said]
        half = max(text_width(text, Font.SANS_BOLD, _READING) for text in texts) / 2
        ends = [self.x(cut.value) for cut in self.stage.view.cuts]
        return Box(
            min(band.left, min(ends) - half),
            top,
            max(band.right, max(ends) + half, self.sheet.right + depth),
            self.sheet.bottom + max(_PAST, depth) + self.style.outline_width,
        )


# The scale.


def _scale(plan: _Plan, ruler: Ruler) -> Iterator[Shape]:
    """As much of the trimmer's scale as the sheet is wide: all stages of one size use the same drawing."""
    style, band = plan.style, plan.band(ruler)
    whole = _whole_scale(plan, ruler)
    left = band.box.left if ruler.zero is Edge.LEFT else band.box.right - whole.width
    window = Box(band.box.left - left, 0.0, band.box.right - left, whole.height)
    yield Use(whole, translation(left, band.box.top), window.corners)
    edge = Stroke(style.palette.ink, 2 * style.outline_width)
    yield Line((band.zero, band.base - band.tick), (band.zero, plan.sheet.top), edge)


def _whole_scale(plan: _Plan, ruler: Ruler) -> Symbol:
    """A scale from its zero to its end, its band's top left corner at (0, 0)."""
    size = plan.style.scale_label_size
    hang, height, length = band_hang(size), band_height(_TICK, size), ruler.at(ruler.length)
    zero = hang if ruler.zero is Edge.LEFT else hang + length
    # Half a point more, for the lower half of the line on which its marks stand.
    box = Box(0.0, 0.0, length + 2 * hang, height)
    band = Band(box, height, zero, _TICK, size, ruler)
    shapes = tuple(band_shapes(band, numerals(ruler, (), size), drawn_divisions(ruler), plan.style))
    told = ruler.unit.value, ruler.mark, ruler.length, plan.stage.view.scale.ratio, ruler.zero.value
    key = " ".join(("scale", *map(str, told)))
    return Symbol(key, shapes, box.width, height + 0.5)


# The paper.


def _strips(plan: _Plan, shown: StagePrint) -> Iterator[Group]:
    """The edges of all strips, then their prints over those: no line is seen where nothing is cut yet."""
    view, style = plan.stage.view, plan.style
    edge = Stroke(style.palette.ink, 2 * style.outline_width, join=Join.MITRE)
    for layered in plan.stage.strips:
        box = plan.box_of(layered.strip)
        *lower, ground = beneath(box, view.papers, style)
        yield _layer(layered, (*lower, replace(ground, stroke=edge)))
    placing = lie(shown.part, shown.whole, shown.lying, view.unit, view.scale)
    for layered in plan.stage.strips:
        yield _layer(layered, _strip(plan, layered, shown, placing))


def _layer(layered: LayeredStrip, shapes: Iterable[Shape]) -> Group:
    kind = STAYS_LAYER if layered.stays else OFF_LAYER
    return Group(tuple(shapes), tag=f"{STRIP_LAYER} {kind} after-{layered.gone_after}")


def _strip(plan: _Plan, layered: LayeredStrip, shown: StagePrint, placing: Affine) -> Iterator[Shape]:
    view, box = plan.stage.view, plan.box_of(layered.strip)
    window = on_face(layered.part, shown.whole, shown.lying.face, view.unit)
    # A little more of the print than the strip has, or a screen would let the ground show between two.
    seam = _SEAM * float(view.scale.reduction)
    yield Use(shown.symbol, placing, window.grown(seam).corners)
    if not layered.stays:
        yield Group(tuple(_highlight(layered.strip, box, plan)), tag="mark")


def _highlight(strip: StageStrip, box: Box, plan: _Plan) -> Iterator[Shape]:
    """What makes a strip stand out: a heavy line about it, its letters, hatching on what is scrap."""
    style = plan.style
    if not strip.letters:
        yield filled_box(box, Fill(style.palette.paper))
        lines = hatch(box.corners, 2 * style.hatch_distance, style.narrow, [])
        if lines.segments:
            yield lines
    inset = min(_OUTLINE_CASING / 2, box.width / 4, box.height / 4)
    for colour, width in ((style.palette.paper, _OUTLINE_CASING), (style.palette.accent, _OUTLINED)):
        yield filled_box(box.grown(-inset), None, Stroke(colour, min(width, 2 * inset), join=Join.MITRE))
    letters = strip.letters or (plan.stage.view.labels.scrap,)
    form = chip_form(letters, strip.words, box.width, box.height, style)
    if form is not None:
        yield chip_shapes(form, box.centre, style)


# The cuts.


def _cut(plan: _Plan, cut: StageCut, said: tuple[str, str]) -> Group:
    """The blade through the sheet, its number over the scale, and its reading over that."""
    style, x = plan.style, plan.x(cut.value)
    marks = register_mark(x, plan.sheet, style) if plan.stage.view.is_printed else ()
    ends = (x, plan.sheet.top - _EDGE_GAP), (x, plan.sheet.bottom + _PAST)
    disc = plan.band(plan.ruler).box.top - style.disc_radius
    kit_unit, other_unit = said
    shapes: tuple[Shape, ...] = (
        *marks,
        Line(*ends, Stroke(style.palette.paper, _BLADE + 2 * _CASING)),
        Line(*ends, Stroke(style.palette.accent, _BLADE, _DASHES)),
        cut_marker(x, disc, str(cut.number), style),
        Group(tuple(_on_scale(plan, plan.ruler, x, kit_unit)), tag=KIT_UNIT_LAYER),
        Group(tuple(_on_scale(plan, plan.other_ruler, x, other_unit)), tag=OTHER_UNIT_LAYER),
    )
    return Group(shapes, tag=f"{BLADE_LAYER} at-{cut.number}")


def _on_scale(plan: _Plan, ruler: Ruler, x: float, said: str) -> Iterator[Shape]:
    """The blade on a scale, broken where it would hide a numeral, and the reading over it."""
    style, band = plan.style, plan.band(ruler)
    stroke = Stroke(style.palette.accent, _BLADE)
    yield from stem(x, band.box.top, band.base, band, numerals(ruler, (), band.size), stroke)
    baseline = band.box.top - 2 * style.disc_radius - _AROUND - _BELOW_BASELINE * _READING
    yield Text(said, x, baseline, _READING, Font.SANS_BOLD, style.palette.ink, Anchor.MIDDLE, role="reading")
