"""Figures at the trimmer, measured: outlines, cut lines, numerals, widths, and whose letters lie where."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise, zip_longest
from math import prod

from booklet.content.figures import CutFigure as CutRequest
from booklet.content.figures import LensFigure, PieceMap
from booklet.cutting.labels import label_letters
from booklet.cutting.model import Cut, CutSheet, Stage, Strip
from booklet.cutting.orientation import part_seen
from booklet.kit.fields import Edge
from booklet.kit.kit import trimmer_limits
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Unit
from booklet.measure.words import print_size
from booklet.placing.resolved import ResolvedKit
from booklet.proof.figures import (
    CutFigure,
    Dimension,
    at_heading,
    below,
    cut_figures,
    floor,
    height_line,
    height_said,
    is_outline,
    line_ends,
    width_lines,
    widths_said,
)
from booklet.proof.measured import (
    Drawn,
    Measured,
    Shown,
    extras,
    marks_off,
    millimetres,
    pitch_of,
    points,
    sides_off,
)
from booklet.proof.numerals import leeway, numerals, tokens
from booklet.proof.printed import POINTS_PER_MM, Box, Page, Stroke, Word
from booklet.proof.scales import DrawnScale, scales_on

# From a figure down to the words that state its scale, or from its scale up to the heading that does.
_SCALE_BELOW, _SCALE_ABOVE = 62.0, 110.0
# A numeral stands over its mark, or is another's: farther off by so much, in points, it reads as beside it.
_BESIDE = 0.3 * POINTS_PER_MM
# So many texts that are not a figure's may stand about its dimension lines.
_MOST_SPARE = 3
# A line is as long as its text says within so much, in points; lines so near each other are one.
_NEAR, _IN_LINE = 0.15, 0.05
# A scale as print states it.
_RATIO = re.compile(r"1:([0-9]+(?:\.[0-9]+)?)")
# Above the marks of a scale the discs of its cuts stand within so many points, in rows.
_DISCS, _DISC_ASIDE = 46.0, 20.0


@dataclass(frozen=True)
class _Stage:
    """A stage and its figure on a page: what is to be seen, what is, and the scale that is stated."""

    shown: Shown
    stage: Stage
    unit: Unit
    zero: Edge
    figure: CutFigure
    ratio: float

    @property
    def key(self) -> str:
        return f"{self.shown.anchor} / stage {self.stage.number}"

    def x(self, reading: Fraction) -> float:
        """Where a reading lies on the page, from the edge at the stop."""
        along = points(reading, self.unit, self.ratio)
        outline = self.figure.outline
        return outline.left + along if self.zero is Edge.LEFT else outline.right - along

    def drawn(self, what: str, said: str, off: float | None, box: Box | None = None) -> Measured:
        """Something of it that is measured."""
        claim = Drawn(f"{self.key} / {what}", self.shown.page, said, self.stage.where)
        return Measured(claim, off, box)


def measured_at_trimmer(resolved: ResolvedKit, figures: Sequence[Shown], page: Page) -> Iterator[Measured]:
    """All that is measured in the figures at the trimmer of a page; `figures` are those that it shows."""
    asked = [one for one in figures if isinstance(one.request, CutRequest)]
    for one, figure in zip_longest(asked, cut_figures(page)):
        if one is None:
            yield Measured(Drawn(f"page {page.number} / a figure too many", page.number, "a figure"), None)
        else:
            yield from _of_stage(resolved, one, figure)
    for one in figures:
        match one.request:
            case LensFigure():
                yield from _of_lens(resolved, one, page)
            case PieceMap():
                yield from _of_map(resolved, one, page)


def _sheet(resolved: ResolvedKit, index: int) -> CutSheet:
    return next(sheet for sheet in resolved.sheets if sheet.index == index)


def _of_stage(resolved: ResolvedKit, shown: Shown, figure: CutFigure | None) -> Iterator[Measured]:
    assert isinstance(shown.request, CutRequest)
    sheet = _sheet(resolved, shown.request.sheet)
    stage, unit = sheet.stages[shown.request.stage - 1], resolved.kit.unit
    ratio = stated_scale(figure) if figure else None
    if figure is None or ratio is None:
        what = f"{shown.anchor} / stage {stage.number} / outline"
        yield Measured(Drawn(what, shown.page, print_size(stage.seen, unit), stage.where), None)
        return
    one = _Stage(shown, stage, unit, trimmer_limits(resolved.kit).zero, figure, ratio)
    yield from _outline_and_cuts(one)
    yield from _numerals(one)
    yield from _dimensions(one)
    yield from _letters(one)
    yield from _discs(one)


def stated_scale(figure: CutFigure) -> float | None:
    """How many times smaller than in truth a figure says that it is drawn; None where it does not say."""
    near = (
        at_heading(figure.page, figure.scale.box, _SCALE_ABOVE),
        below(figure.page, figure.outline, _SCALE_BELOW),
    )
    return next(filter(None, (ratio_in([word.text for word in words]) for words in near)), None)


def ratio_in(words: Sequence[str]) -> float | None:
    """The first scale that words state, as how many times smaller."""
    return next(ratios_in(words), None)


def ratios_in(words: Sequence[str]) -> Iterator[float]:
    """Every scale that words state, as how many times smaller; the designer's words may state one, too."""
    for before, word in pairwise(words):
        stated = _RATIO.match(word) if before == "Scale" else None
        if stated is not None and float(stated[1]):
            yield float(stated[1])


# The sheet and its cuts.


def _outline_and_cuts(one: _Stage) -> Iterator[Measured]:
    """The piece as large as it is; a line for each reading, and no other line."""
    outline, seen = one.figure.outline, one.stage.seen
    sides = (
        abs(outline.width - points(seen.width, one.unit, one.ratio)),
        abs(outline.height - points(seen.height, one.unit, one.ratio)),
    )
    yield one.drawn("outline", print_size(seen, one.unit), millimetres([max(sides)]), outline)
    lines = [line.start[0] for line in one.figure.cuts]
    for cut in one.stage.cuts:
        off = millimetres(abs(x - one.x(cut.reading)) for x in lines)
        yield one.drawn(f"line of cut {cut.number}", "a cut line", off, outline)
    wanted = [one.x(cut.reading) for cut in one.stage.cuts]
    for at, off in enumerate(extras(lines, wanted), 1):
        yield one.drawn(f"drawn line {at}", "a line that is a cut's", millimetres([off]), outline)


def _numerals(one: _Stage) -> Iterator[Measured]:
    """The marks of the scale, as far as the piece reaches, and each numeral over the mark of its value."""
    scale, outline = one.figure.scale, one.figure.outline
    unit = points(1, one.unit, one.ratio)
    rest = max(unit, pitch_of(scale.marks))
    if one.zero is Edge.RIGHT:
        reaches = scale.left < outline.left + rest and scale.right > outline.right - 1.0
    else:
        reaches = scale.left < outline.left + 1.0 and scale.right > outline.right - rest
    off = marks_off(scale.marks, one.x(Fraction(0)), unit) if reaches else None
    yield one.drawn("marks of the scale", "a scale", off, scale.box)
    for word in one.figure.scale.numerals:
        place = one.x(Fraction(int(word.text)))
        mark = abs(one.figure.scale.mark_of(word) - place)
        beside = abs(word.box.centre[0] - place)
        off = mark / POINTS_PER_MM if beside <= _BESIDE else beside / POINTS_PER_MM
        yield one.drawn(f"numeral {word.text}", word.text, off, word.box)


def _dimensions(one: _Stage) -> Iterator[Measured]:
    """Each width under the piece, and its height at its side, as long as they say."""
    figure = one.figure
    lines, texts = width_lines(figure), widths_said(figure)
    pairs = list(zip_longest(lines, _their_own(one, lines, texts)))
    names = [f"width {at}" for at in range(1, len(pairs) + 1)]
    height = height_line(figure)
    if height is not None:
        pairs.append((height, height_said(figure, height)))
        names.append("height")
    for name, (line, text) in zip(names, pairs, strict=True):
        if line is None or text is None:
            yield one.drawn(name, text.said if text else "a dimension", None, figure.outline)
            continue
        off = max(_long_off(one, line, text), ends_off(figure.page, line))
        yield one.drawn(name, text.said, millimetres([off]), text.box)


def _their_own(
    one: _Stage, lines: Sequence[Stroke], texts: Sequence[Dimension]
) -> Sequence[Dimension | None]:
    """Of the texts about some lines, in order, those that are the lines' own: a folio may stand near."""
    if not 0 < len(texts) - len(lines) <= _MOST_SPARE:
        return texts

    def misfits(run: Sequence[Dimension]) -> int:
        return sum(_long_off(one, line, text) > _NEAR for line, text in zip(lines, run, strict=True))

    return min(combinations(texts, len(lines)), key=misfits)


def _long_off(one: _Stage, line: Stroke, text: Dimension) -> float:
    """How far in points a line is from as long as its text says."""
    return abs(line.length - points(_meant(one, text.said), one.unit, one.ratio))


def _meant(one: _Stage, text: str) -> Fraction:
    """The length that a dimension stands for: the one it says, or where it says about, one that is there."""
    numbers = list(numerals(text))
    said, times = prod(numbers, start=Fraction(1)), prod(numbers[:-1], start=Fraction(1))
    places = [Fraction(0), one.stage.seen.width, *(cut.reading for cut in one.stage.cuts)]
    there = [one.stage.seen.height, *(abs(place - other) for place, other in combinations(places, 2))]
    nearest = min(there, key=lambda each: abs(each - said))
    return nearest if abs(nearest - said) <= times * leeway(text, one.unit) else said


# Whose letters lie where.


def ends_off(page: Page, line: Stroke) -> float:
    """How far in points arrowheads or dots are from the ends of a line, at most; endlessly of none."""
    along = 1 if line.is_upright else 0
    ends, drawn = (line.start[along], line.end[along]), line_ends(page, line)
    return max(*extras(ends, drawn), *extras(drawn, (*ends, *_ends_beside(page, line))))


def _ends_beside(page: Page, line: Stroke) -> Iterator[float]:
    """Where the dimension lines that go on right from the ends of a line end, along it."""
    along = 1 if line.is_upright else 0
    ends = line.start[along], line.end[along]
    across = (line.start[1 - along], line.end[1 - along])
    for other in page.strokes:
        its = other.start[along], other.end[along]
        is_in_line = (
            not other.is_dashed
            and abs(other.width - line.width) < _IN_LINE
            and max(abs(a - b[1 - along]) for a, b in zip(across, (other.start, other.end), strict=True))
            < _IN_LINE
        )
        if is_in_line and other is not line and any(abs(a - b) < _IN_LINE for a in ends for b in its):
            yield from its


def _letters(one: _Stage) -> Iterator[Measured]:
    """Letters on the piece on their own strip; those below it in the order of the strips, a run from its
    first.
    """
    strips = {letters: strip for strip in one.stage.strips for letters in _letters_of(strip)}
    outline = one.figure.outline
    below_it: list[tuple[float, list[str]]] = []
    for word in _words_about(one):
        run = [letters for letters in map(str, tokens(word.text)) if letters in strips]
        if word.box.centre[1] >= outline.bottom:
            below_it += [(word.box.left, run)] if run else []
            continue
        for letters in run:
            off = _off_strip(one, word, strips[letters])
            yield one.drawn(f"letter {letters}", letters, off, word.box)
    if below_it:
        order, way = list(strips), 1 if one.zero is Edge.LEFT else -1
        runs = [run for _, run in sorted(below_it)]
        wanted = sorted(runs, key=lambda run: (way * strips[run[0]].start, order.index(run[0])))
        said = " ".join(letters for run in runs for letters in run)
        yield one.drawn("letters below", said, 0.0 if runs == wanted else None, outline)


def _letters_of(strip: Strip) -> list[str]:
    return [label_letters(piece.label) for piece in strip.pieces if piece.label]


def _words_about(one: _Stage) -> Iterator[Word]:
    """The words on the piece, and those close below it."""
    outline = one.figure.outline
    foot = min(floor(one.figure), outline.bottom + _SCALE_BELOW)
    room = Box(outline.left - 12.0, outline.top, outline.right + 12.0, foot)
    for word in one.figure.page.words:
        if not word.angle and room.holds_point(word.box.centre):
            yield word


def _off_strip(one: _Stage, word: Word, strip: Strip) -> float:
    """How far in millimetres a word's middle lies beside a strip."""
    left, right = sorted((one.x(strip.start), one.x(strip.end)))
    x = word.box.centre[0]
    return max(left - x, x - right, 0.0) / POINTS_PER_MM


def _discs(one: _Stage) -> Iterator[Measured]:
    """The numbers of the cuts above the scale, from left to right in the order of their readings."""
    reading = {cut.number: cut.reading for cut in one.stage.cuts}
    scale = one.figure.scale
    found: list[tuple[float, int]] = []
    for circle in one.figure.page.circles:
        x, y = circle.box.centre
        if (
            scale.left - _DISC_ASIDE < x < scale.right + _DISC_ASIDE
            and scale.top - _DISCS < y < scale.top - 8.0
        ):
            found += [(x, number) for number in _numbers_in(one.figure.page, circle.box) if number in reading]
    numbers = [number for _, number in sorted(found)]
    values = [one.x(reading[number]) for number in numbers]
    off = 0.0 if values == sorted(values) and numbers else None
    yield one.drawn("numbers of cuts", ", ".join(map(str, numbers)), off, scale.box)


def _numbers_in(page: Page, box: Box) -> Iterator[int]:
    return (int(word.text) for word in page.words if word.text.isdecimal() and box.holds(word.box, 1.0))


# The scale at true size.


def _of_lens(resolved: ResolvedKit, shown: Shown, page: Page) -> Iterator[Measured]:
    """Each cut's mark on a stretch of the scale, at the true distance from its numerals."""
    assert isinstance(shown.request, LensFigure)
    stage = _sheet(resolved, shown.request.sheet).stages[shown.request.stage - 1]
    unit = resolved.kit.unit
    pitch = points(Fraction(1), unit) * (1 if trimmer_limits(resolved.kit).zero is Edge.LEFT else -1)
    at_outlines = [figure.scale for figure in cut_figures(page)]
    scales = [scale for scale in scales_on(page) if scale not in at_outlines]
    for cut in stage.cuts:
        if cut.number in shown.request.cuts:
            key = f"{shown.anchor} / stage {stage.number}, true size / mark of cut {cut.number}"
            claim = Drawn(key, shown.page, "the mark of a cut at true size", cut.where)
            yield Measured(claim, millimetres(_lens_offs(page, scales, cut, pitch)))
    for scale in scales:
        known = scale.numerals[0]
        zero = scale.mark_of(known) - int(known.text) * pitch
        key = f"{shown.anchor} / stage {stage.number}, true size / marks"
        off = marks_off(scale.marks, zero, pitch)
        yield Measured(Drawn(key, shown.page, "a scale", stage.where), off, scale.box)
        for word in scale.numerals:
            off = abs(scale.mark_of(word) - scale.x(int(word.text), pitch)) / POINTS_PER_MM
            key = f"{shown.anchor} / stage {stage.number}, true size / numeral {word.text}"
            yield Measured(Drawn(key, shown.page, word.text, stage.where), off, word.box)


def _lens_offs(page: Page, scales: Sequence[DrawnScale], cut: Cut, pitch: float) -> Iterator[float]:
    for scale in scales:
        place = scale.x(float(cut.reading), pitch)
        for stroke in page.strokes:
            if _is_mark_of_cut(stroke, scale):
                yield abs(stroke.start[0] - place)


def _is_mark_of_cut(stroke: Stroke, scale: DrawnScale) -> bool:
    """Whether a stroke is longer than any mark of a scale, stands on its base and is no dashes."""
    foot, long = max(stroke.start[1], stroke.end[1]), scale.base - scale.top
    stands = abs(foot - scale.base) < 1.0 or stroke.length > 1.05 * long
    return (
        stroke.is_upright
        and not stroke.is_dashed
        and stands
        and stroke.length > 1.02 * long
        and scale.left - 1.0 < stroke.start[0] < scale.right + 1.0
        and abs((stroke.start[1] + stroke.end[1]) / 2 - (scale.top + scale.base) / 2) < long
    )


# Where each piece lay.


def _of_map(resolved: ResolvedKit, shown: Shown, page: Page) -> Iterator[Measured]:
    """Each piece of a sheet in its place and size on the picture of the whole, where that fits best."""
    assert isinstance(shown.request, PieceMap)
    sheet, unit = _sheet(resolved, shown.request.sheet), resolved.kit.unit
    whole, lying = rect_at_origin(sheet.size), sheet.whole[0].lying
    at_scale = {figure.outline for figure in cut_figures(page)}
    boxes = [path.box for path in page.paths if is_outline(path) and path.box not in at_scale]
    parts = [part_seen(piece.part, whole, lying) for piece in sheet.pieces]
    # The first corner of the whole is that of a piece.
    tries = [
        [_placed(part, box, unit, ratio) for part in parts]
        for ratio in dict.fromkeys(ratios_in(page.words_said))
        for box in boxes
    ]
    wanted = min(tries, key=lambda places: sum(_nearest(place, boxes) for place in places), default=None)
    for at, piece in enumerate(sheet.pieces):
        key = f"{shown.anchor} / map / {label_letters(piece.label) or 'scrap'}"
        claim = Drawn(key, shown.page, print_size(parts[at].size, unit), piece.where)
        if wanted is None:
            yield Measured(claim, None)
        else:
            yield Measured(claim, millimetres([_nearest(wanted[at], boxes)]), wanted[at])


def _nearest(place: Box, boxes: Sequence[Box]) -> float:
    """How far in points the sides of the nearest of some boxes are from a place at most."""
    return min(sides_off(box, place) for box in boxes)


def _placed(part: ExactRect, corner: Box, unit: Unit, ratio: float) -> Box:
    """Where a part of a sheet lies on the page whose own corner is that of a box."""
    left, top = (points(value, unit, ratio) for value in (part.x, part.y))
    width, height = (points(value, unit, ratio) for value in (part.width, part.height))
    return Box(corner.left + left, corner.top + top, corner.left + left + width, corner.top + top + height)
