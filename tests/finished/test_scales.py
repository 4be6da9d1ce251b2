"""At the trimmer: numerals stand on their marks, cuts at their readings, figures are as large as they say."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import pairwise

import pytest

from booklet.content.blocks import CutStage, LayoutView, Section
from booklet.content.figures import CutFigure as AskedFigure
from booklet.content.figures import LensFigure, NumberedLayout
from booklet.cutting.model import Stage
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.proof.at_trimmer import stated_scale
from booklet.proof.figures import CutFigure, cut_figures
from booklet.proof.printed import POINTS_PER_MM, Page, Path
from booklet.proof.scales import DrawnScale
from tests.finished.book import Part
from tests.finished.conftest import Open
from tests.finished.expected import all_of, part_of, sheet_sections
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import lens_scales, numbered
from tests.spec_data import DEMOS

# A drawn place may be so far from where its number says.
TOLERANCE = 0.3 * POINTS_PER_MM
POINTS = {Unit.INCH: 72.0, Unit.CENTIMETRE: 10 * POINTS_PER_MM, Unit.MILLIMETRE: POINTS_PER_MM}
# Numerals that a scale may have from one to the next, in its unit.
_EVEN_STEPS = (1, 2, 3, 5, 6, 10, 12, 20, 50, 100)


@dataclass(frozen=True)
class DrawnStage:
    """A stage of the kit beside its figure on paper."""

    section: Section
    asked: CutStage
    stage: Stage
    figure: CutFigure

    @property
    def name(self) -> str:
        page = self.figure.page.number
        return f"p. {page}, sheet {self.section.number}, stage {self.stage.number}"


def drawn_stages(finished: Finished) -> Iterator[DrawnStage]:
    """Every stage with its figure, in their order.  Raises AssertionError where there are not as many."""
    for section in sheet_sections(finished.document):
        part = part_of(finished.book, section)
        asked = list(all_of(CutStage, section.blocks))
        figures = [figure for page in part.pages for figure in cut_figures(page)]
        assert len(figures) == len(asked), f"{part.title}: {len(figures)} figures of {len(asked)} stages"
        for stage, figure in zip(asked, figures, strict=True):
            yield DrawnStage(section, stage, stage_of(finished, stage), figure)


def stage_of(finished: Finished, asked: CutStage) -> Stage:
    """The stage of the kit that a figure is asked for."""
    request = asked.picture.figure
    assert isinstance(request, AskedFigure)
    sheet = next(sheet for sheet in finished.resolved.sheets if sheet.index == request.sheet)
    return sheet.stages[request.stage - 1]


def points(finished: Finished, value: Fraction | int, reduction: float = 1.0) -> float:
    """A length of the kit as points on paper, drawn so many times smaller."""
    return float(value) * POINTS[finished.resolved.kit.unit] / reduction


def scale_of(figure: CutFigure) -> float:
    ratio = stated_scale(figure)
    assert ratio is not None, f"p. {figure.page.number}: a figure states no scale"
    return ratio


# Numerals.


def test_every_numeral_stands_on_its_mark(finished: Finished) -> None:
    wrong = []
    count = 0
    for page in finished.book.pages:
        for scale in (*(figure.scale for figure in cut_figures(page)), *lens_scales(page)):
            for word in scale.numerals:
                count += 1
                off = word.box.centre[0] - scale.mark_of(word)
                if abs(off) > TOLERANCE:
                    wrong.append(
                        f"p. {page.number}: {word.text} is {off / POINTS_PER_MM:.2f} mm off its mark"
                    )
    assert count > 20
    assert not wrong, listed(wrong)


def test_numerals_count_up_with_the_marks(finished: Finished) -> None:
    wrong = []
    for drawn in drawn_stages(finished):
        scale = drawn.figure.scale
        pitch = points(finished, 1, scale_of(drawn.figure))
        wrong += [
            f"{drawn.name}: {word.text} stands at {(word.box.centre[0] - scale.left) / pitch:.2f}"
            for word in scale.numerals
            if abs(word.box.centre[0] - scale.left - int(word.text) * pitch) > TOLERANCE
        ]
        if abs(scale.left - drawn.figure.outline.left) > TOLERANCE:
            wrong.append(f"{drawn.name}: the zero lies not at the edge")
    assert not wrong, listed(wrong)


def test_no_numeral_is_missing_between_others(finished: Finished) -> None:
    wrong = []
    for drawn in drawn_stages(finished):
        readings = {cut.reading for cut in drawn.stage.cuts}
        values = drawn.figure.scale.values
        if not any(is_even(values, step, readings, float(drawn.stage.seen.width)) for step in _EVEN_STEPS):
            wrong.append(f"{drawn.name}: {values}")
    assert not wrong, listed(wrong)


def is_even(values: tuple[int, ...], step: int, readings: Collection[Fraction], reach: float) -> bool:
    """Whether numerals stand at every step from 0 to the end, and else only where a cut is made."""
    even = set(range(0, int(reach) + 1, step))
    return len(even) > 1 and even <= set(values) and all(value in readings for value in set(values) - even)


# Cuts.


def test_every_cut_is_drawn_at_its_reading(finished: Finished) -> None:
    wrong = []
    count = 0
    for drawn in drawn_stages(finished):
        scale, lines = drawn.figure.scale, [line.start[0] for line in drawn.figure.cuts]
        readings = [row.reading for row in drawn.asked.slip.rows if row.reading is not None]
        places = [scale.x(float(reading.value)) for reading in readings]
        count += len(places)
        wrong += [
            f"{drawn.name}: no cut at {float(reading.value):g}, but at "
            + ", ".join(f"{(line - scale.left) / scale.unit_points():.3f}" for line in lines)
            for reading, place in zip(readings, places, strict=True)
            if all(abs(line - place) > TOLERANCE for line in lines)
        ]
        if len(lines) != len({reading.value for reading in readings}):
            wrong.append(f"{drawn.name}: {len(lines)} lines for {len(readings)} readings")
    assert count
    assert not wrong, listed(wrong)


def test_every_cut_has_its_number_over_the_scale(finished: Finished) -> None:
    wrong = []
    for drawn in drawn_stages(finished):
        scale = drawn.figure.scale
        shown = [each for each in numbered(drawn.figure.page) if each.is_disc and is_over(each.circle, scale)]
        numbers = {each.number for each in shown}
        for cut in drawn.stage.cuts:
            x = scale.x(float(cut.reading))
            own = [each for each in shown if each.number == cut.number]
            if not own and not is_between(cut.number, numbers):
                wrong.append(f"{drawn.name}: no number {cut.number} over the scale")
            if own and len(numbers) == len(drawn.stage.cuts) and not is_bracketed(drawn.figure):
                off = own[0].circle.box.centre[0] - x
                if abs(off) > TOLERANCE:
                    wrong.append(f"{drawn.name}: number {cut.number} stands {off:.1f} pt beside its cut")
    assert not wrong, listed(wrong)


def is_over(circle: Path, scale: DrawnScale) -> bool:
    """Whether a circle stands in the rows over a scale."""
    x, y = circle.box.centre
    return scale.left - 12 <= x <= scale.right + 12 and scale.top - 64 < y < scale.top


def is_between(number: int, shown: set[int]) -> bool:
    """Whether a number is left out between others that are shown, as those of a bracket are."""
    return any(other < number for other in shown) and any(other > number for other in shown)


def is_bracketed(figure: CutFigure) -> bool:
    """Whether a level line over the scale holds several cuts together."""
    scale = figure.scale
    return any(
        stroke.is_level
        and scale.top - 24 < stroke.start[1] < scale.top - 10
        and stroke.length > 6
        and scale.left < min(stroke.start[0], stroke.end[0])
        and max(stroke.start[0], stroke.end[0]) < scale.right
        for stroke in figure.page.strokes
    )


# Lenses.


def test_a_lens_shows_its_cuts_at_true_size(finished: Finished) -> None:
    wrong = []
    for section in sheet_sections(finished.document):
        part = part_of(finished.book, section)
        asked = [stage for stage in all_of(CutStage, section.blocks) if stage.lens is not None]
        scales = [(page, scale) for page in part.pages for scale in lens_scales(page)]
        assert bool(asked) == bool(scales)
        pitch = points(finished, 1)
        for page, scale in scales:
            first = scale.numerals[0]
            wrong += [
                f"p. {page.number}, lens: {word.text} is off"
                for word in scale.numerals
                if abs(word.box.centre[0] - scale.x(int(word.text), pitch)) > TOLERANCE
            ]
            assert int(first.text) >= 0
        for stage in asked:
            wrong += missing_cuts(finished, part, stage, scales)
    assert not wrong, listed(wrong)


def missing_cuts(
    finished: Finished, part: Part, asked: CutStage, scales: list[tuple[Page, DrawnScale]]
) -> Iterator[str]:
    """The cuts of a lens that no broad mark shows on any of its stretches of the scale."""
    assert asked.lens is not None
    request = asked.lens.picture.figure
    assert isinstance(request, LensFigure)
    pitch = points(finished, 1)
    for cut in stage_of(finished, asked).cuts:
        if cut.number not in request.cuts:
            continue
        places = [(page, scale, scale.x(float(cut.reading), pitch)) for page, scale in scales]
        if not any(is_marked(page, scale, x) for page, scale, x in places):
            yield f"{part.title}: cut {cut.number} is not marked in its lens"


def is_marked(page: Page, scale: DrawnScale, x: float) -> bool:
    """Whether a broad upright line crosses a scale at a place on it."""
    return scale.left - 0.5 <= x <= scale.right + 0.5 and any(
        stroke.is_upright
        and stroke.width > 1.0
        and abs(stroke.start[0] - x) < TOLERANCE
        and min(stroke.start[1], stroke.end[1]) < scale.base - 4.0 < max(stroke.start[1], stroke.end[1])
        for stroke in page.strokes
    )


# Sizes.


def test_every_cut_figure_is_as_large_as_its_scale_says(finished: Finished) -> None:
    wrong = []
    for drawn in drawn_stages(finished):
        reduction, outline, seen = scale_of(drawn.figure), drawn.figure.outline, drawn.stage.seen
        for side, length in ((outline.width, seen.width), (outline.height, seen.height)):
            off = side - points(finished, length, reduction)
            if abs(off) > TOLERANCE:
                wrong.append(f"{drawn.name}: {off / POINTS_PER_MM:+.2f} mm at 1:{reduction:g}")
    assert not wrong, listed(wrong)


def test_a_lens_states_that_it_is_at_true_size(finished: Finished) -> None:
    for section in sheet_sections(finished.document):
        part = part_of(finished.book, section)
        lenses = [stage.lens for stage in all_of(CutStage, section.blocks) if stage.lens]
        said = list(finished.book.every("True size", part.start, part.end))
        assert len(said) >= len(lenses)
        assert {place.page for found in said for place in found.places} >= {
            page for page in part.pages if lens_scales(page)
        }


def test_every_finished_page_is_as_large_as_its_scale_says(finished: Finished) -> None:
    wrong = []
    for section in finished.document.sections:
        for view in all_of(LayoutView, section.blocks):
            request = view.picture.figure
            assert isinstance(request, NumberedLayout)
            page = part_of(finished.book, section).first
            size = finished.resolved.layouts[request.layout].size
            stated = [
                float(text.partition(":")[2])
                for before, text in pairwise(page.words_said)
                if before == "Scale" and text.startswith("1:")
            ]
            if not any(has_outline(finished, page, size.width, size.height, scale) for scale in stated):
                wrong.append(f"p. {page.number}: no page of {size} at a scale stated: {stated}")
    assert not wrong, listed(wrong)


def has_outline(finished: Finished, page: Page, width: Fraction, height: Fraction, reduction: float) -> bool:
    """Whether a rectangle of a size is drawn on a page at a scale."""
    wide, high = points(finished, width, reduction), points(finished, height, reduction)
    return any(
        path.stroke is not None
        and path.fill is None
        and not path.curves
        and abs(path.box.width - wide) < TOLERANCE
        and abs(path.box.height - high) < TOLERANCE
        for path in page.paths
    )


@pytest.mark.parametrize("name", DEMOS)
def test_the_bar_that_checks_the_print_is_at_true_size(name: str, open_booklet: Open) -> None:
    finished = open_booklet(name)
    bars = [
        scale
        for page in finished.book.pages
        for scale in lens_scales(page)
        if scale.values[0] == 0 and abs(scale.unit_points() - points(finished, 1)) < 0.01
    ]
    assert len(bars) >= 2
