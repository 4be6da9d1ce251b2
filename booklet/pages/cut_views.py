"""Enlarged views of the trimmer's scale, for readings that the scale on a figure does not label."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.marks.scale_bar import (
    EnlargedView,
    Reading,
    Ruler,
    enlarged_view,
    is_labelled,
    shared_view,
    view_width,
)
from booklet.drawing.shapes.figure import Figure, Text, translated
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import LEAST_LINE_DISTANCE, DrawingStyle
from booklet.kit.kit import trimmer_limits
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, to_points
from booklet.pages.cut_words import reading_words
from booklet.placing.resolved import ResolvedKit

# At how large a scale a stretch of the trimmer's scale is shown, largest first.
_SCALES = tuple(Scale(Fraction(halves, 2)) for halves in (2, 3, 4, 5))
# How far a shared view reaches past its outermost readings.
_MARGIN = {Unit.INCH: Fraction(1, 2), Unit.CENTIMETRE: Fraction(1), Unit.MILLIMETRE: Fraction(10)}
_VIEW_ENDS = 42.0


def stage_readings(resolved: ResolvedKit, stage: Stage) -> tuple[Reading, ...]:
    """The readings of a stage as a figure shows them, in cutting order."""
    return tuple(Reading(str(cut.number), cut.reading, reading_words(resolved, cut)) for cut in stage.cuts)


@dataclass(frozen=True)
class Views:
    """The enlarged views of a stage: one for each reading, by its cut's number, to stand in a column; or
    fewer wider ones, each for several readings, to stand across the page.

    Where a column is too narrow to show every mark apart there are no single ones.
    """

    single: dict[int, Figure]
    shared: tuple[Figure, ...]


def unlabelled(
    resolved: ResolvedKit, sheet: CutSheet, stages: Sequence[Stage], shown: Collection[Fraction]
) -> list[Reading]:
    """The readings, each value once, that a trimmer does not label and that are not `shown` already.

    Register marks are printed on the sheet itself: there the scale only says where to look for them.
    """
    if sheet.sheet.is_cut_apart:
        return []
    first: dict[Fraction, Reading] = {}
    for stage in stages:
        for reading in stage_readings(resolved, stage):
            if not is_labelled(reading.value, resolved.kit.unit) and reading.value not in shown:
                first.setdefault(reading.value, reading)
    return list(first.values())


def enlarged_views(
    resolved: ResolvedKit,
    sheet: CutSheet,
    readings: Sequence[Reading],
    style: DrawingStyle,
    column: float,
    page: float,
) -> Views:
    """Enlarged views of readings; `column` and `page` are the widths that single and shared ones may take."""
    full = _full_scale(resolved)
    single: dict[int, Figure] = {}
    for reading in readings:
        scale = _column_scale(full, reading, column)
        if scale is None:
            single = {}
            break
        single[int(reading.number)] = _single_view(_name(sheet, reading), reading, full, style, scale)
    return Views(single, shared_views(resolved, sheet, readings, style, page))


def shared_views(
    resolved: ResolvedKit, sheet: CutSheet, readings: Sequence[Reading], style: DrawingStyle, page: float
) -> tuple[Figure, ...]:
    """Views of several readings each, at most `page` points wide."""
    if not readings:
        return ()
    ordered = sorted(readings, key=lambda reading: reading.value)
    scale, clusters = _shared_clusters(ordered, _full_scale(resolved), page)
    return tuple(
        _shared_view(_name(sheet, cluster[-1]), tuple(cluster), _full_scale(resolved), style, scale)
        for cluster in clusters
    )


def _name(sheet: CutSheet, reading: Reading) -> str:
    return f"sheet-{sheet.number}-step-{reading.number}"


def _full_scale(resolved: ResolvedKit) -> Ruler:
    """The trimmer's scale at its true size; it runs on past whatever is cut."""
    limits, unit = trimmer_limits(resolved.kit), resolved.kit.unit
    widest = max(stage.seen.width for sheet in resolved.sheets for stage in sheet.stages)
    return Ruler(max(limits.reach, widest), limits.mark, unit, to_points(Fraction(1), unit))


def _legible_scales(full: Ruler) -> list[Scale]:
    """The scales at which neighbouring marks lie at least 0.7 mm apart, as ISO 128-2 asks; one at least."""
    legible = [each for each in _SCALES if _at_scale(full, each).at(full.mark) >= LEAST_LINE_DISTANCE]
    return legible or [_SCALES[0]]


def _column_scale(full: Ruler, reading: Reading, room: float) -> Scale | None:
    """The largest scale at which a view of one reading fits a column; None where no legible one does."""
    fitting = (each for each in _legible_scales(full) if view_width(_at_scale(full, each), reading) <= room)
    return next(fitting, None)


@lru_cache(maxsize=512)
def _single_view(name: str, reading: Reading, full: Ruler, style: DrawingStyle, scale: Scale) -> Figure:
    """One reading at a scale that the column holds."""
    width = view_width(_at_scale(full, scale), reading)
    view = enlarged_view(0, 0, width, full, reading, style)
    return _figure(name, view, [reading], scale, style)


def _shared_clusters(
    ordered: Sequence[Reading], full: Ruler, room: float
) -> tuple[Scale, list[list[Reading]]]:
    """All readings together at the largest round scale that the page holds, else in few views."""
    scales = _legible_scales(full)
    for scale in scales:
        longest = Fraction((room - _VIEW_ENDS) / _at_scale(full, scale).unit_points)
        clusters = _clusters(ordered, longest, full)
        if len(clusters) == 1:
            break
    return scale, clusters


@lru_cache(maxsize=512)
def _shared_view(
    name: str, cluster: tuple[Reading, ...], full: Ruler, style: DrawingStyle, scale: Scale
) -> Figure:
    view = shared_view(0, 0, _at_scale(full, scale), _stretch(cluster, full), cluster, style)
    return _figure(name, view, cluster, scale, style)


def _clusters(ordered: Sequence[Reading], longest: Fraction, full: Ruler) -> list[list[Reading]]:
    """Readings from the smallest on, as many together as lie in a stretch no longer than `longest`."""
    clusters: list[list[Reading]] = []
    for reading in ordered:
        if clusters:
            low, high = _stretch([*clusters[-1], reading], full)
            if high - low <= longest:
                clusters[-1].append(reading)
                continue
        clusters.append([reading])
    return clusters


def _stretch(ordered: Sequence[Reading], full: Ruler) -> tuple[Fraction, Fraction]:
    """What is shown of the scale for readings from the smallest on: a little more than they span."""
    margin = _MARGIN[full.unit]
    low = max(ordered[0].value - margin, Fraction(0))
    return low, min(max(ordered[-1].value + margin, low + 2 * margin), full.length)


def _figure(
    name: str, view: EnlargedView, readings: Sequence[Reading], scale: Scale, style: DrawingStyle
) -> Figure:
    """A view as a figure, its scale stated at its foot, under whatever hangs there."""
    ink = style.palette.soft_ink
    words = scale.words.removeprefix("Scale ")
    # Under a lone reading its disc stands in the middle; beside a wide view there is room at its end.
    beside = len(readings) > 1
    x, y = (view.box.right + 3, view.band_bottom) if beside else (0.0, view.box.bottom - 4.5)
    stated = Text(words, x, y, style.note_size, Font.SANS, ink, role="scale words")
    left = min(view.box.left, 0.0)
    values = ", ".join(reading.text for reading in readings)
    return Figure(
        name,
        max(view.box.right, stated.box.right) - left,
        view.box.height,
        (translated((*view.shapes, stated), -left, -view.box.top),),
        f"The trimmer's scale enlarged, an arrow at {values}.",
        scale.words,
    )


def _at_scale(full: Ruler, scale: Scale) -> Ruler:
    return replace(full, unit_points=scale.points(Fraction(1), full.unit))
