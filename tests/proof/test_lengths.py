"""What is drawn on the pages, measured where it is drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import pytest

from booklet.content.figures import CutFigure as CutRequest
from booklet.content.figures import NumberedLayout
from booklet.proof.at_table import finished_page
from booklet.proof.figures import cut_figures
from booklet.proof.lengths import measured
from booklet.proof.measured import TOLERANCE, Measured, marks_off
from booklet.proof.printed import POINTS_PER_MM, Outline, Page, Path, Point
from tests.finished.kits import PLAIN
from tests.proof.finished import Finished, finished

KITS = pytest.mark.parametrize(
    "kit", ["hill-line", "roof-garden", PLAIN], ids=["hill-line", "roof-garden", "plain"]
)


def lengths(made: Finished, page: Page | None = None) -> tuple[Measured, ...]:
    """All that is measured in a booklet, with one of its pages as it is given here."""
    pages = [page if page is not None and page.number == each.number else each for each in made.pages]
    return measured(made.resolved, made.figures, pages)


def failing(made: Finished, page: Page) -> list[str]:
    """The keys of what is wrong in a booklet with this page."""
    return [one.claim.key for one in lengths(made, page) if not one.holds]


def first_page(made: Finished, kind: type) -> Page:
    """The first page with a figure of a kind."""
    number = next(one.page for one in made.figures if isinstance(one.request, kind))
    return made.pages[number - 1]


def with_paths(page: Page, change: Callable[[Path], Path | None]) -> Page:
    """A page with its paths changed, or left out."""
    return replace(page, paths=tuple(path for each in page.paths if (path := change(each)) is not None))


def moved(outline: Outline, move: Callable[[Point], Point]) -> Outline:
    return tuple(move(point) for point in outline)


def moved_path(path: Path, move: Callable[[Point], Point]) -> Path:
    """A path with the points of its outlines moved, and its box with them."""
    outlines = tuple(moved(outline, move) for outline in path.outlines)
    box = path.box
    (left, top), (right, bottom) = move((box.left, box.top)), move((box.right, box.bottom))
    return replace(path, outlines=outlines, box=replace(box, left=left, top=top, right=right, bottom=bottom))


@KITS
def test_all_that_is_measured_is_where_it_says(kit: str) -> None:
    made = finished(kit)
    found = lengths(made)
    assert [one.claim.key for one in found if not one.holds] == []
    assert max(one.off or 0.0 for one in found) < 0.005
    stages = sum(isinstance(one.request, CutRequest) for one in made.figures)
    layouts = sum(isinstance(one.request, NumberedLayout) for one in made.figures)
    assert sum(one.claim.key.endswith("/ outline") for one in found) == stages > 0
    assert sum(one.claim.key.endswith("/ finished page") for one in found) == layouts > 0
    assert sum(" of step " in one.claim.key for one in found) >= 3 * layouts


@pytest.mark.parametrize(("off", "holds"), [(0.8 * TOLERANCE, True), (1.2 * TOLERANCE, False)])
def test_a_cut_line_beside_its_reading_is_found(off: float, holds: bool) -> None:
    made = finished(PLAIN)
    page = first_page(made, CutRequest)
    at, by = cut_figures(page)[0].cuts[0].start[0], off * POINTS_PER_MM

    def beside(path: Path) -> Path:
        is_line = path.is_dashed and abs(path.box.left - at) < 0.01
        return moved_path(path, lambda point: (point[0] + by, point[1])) if is_line else path

    assert (failing(made, with_paths(page, beside)) == []) is holds


def test_a_side_of_a_sheet_that_is_drawn_half_a_mark_off_is_found() -> None:
    made = finished(PLAIN)
    page = first_page(made, CutRequest)
    outline = cut_figures(page)[0].outline
    by = 72 / 16 / 6 / 2

    def farther(point: Point) -> Point:
        return (point[0] + by * (abs(point[0] - outline.right) < 0.1), point[1])

    def wider(path: Path) -> Path:
        return moved_path(path, farther) if path.box == outline else path

    assert any(key.endswith("/ outline") for key in failing(made, with_paths(page, wider)))


def test_numerals_of_the_scale_that_change_places_are_found() -> None:
    made = finished(PLAIN)
    page = first_page(made, CutRequest)
    one, other = cut_figures(page)[0].scale.numerals[1:3]
    texts = {id(one.letters[0]): other.text, id(other.letters[0]): one.text}
    letters = tuple(replace(each, text=texts.get(id(each), each.text)) for each in page.letters)
    assert any("numeral" in key for key in failing(made, replace(page, letters=letters)))


def test_letters_of_pieces_that_change_places_on_a_sheet_are_found() -> None:
    made = finished(PLAIN)
    page = first_page(made, CutRequest)
    outline = cut_figures(page)[0].outline
    on_sheet = [each for each in page.letters if each.text in "ABC" and outline.holds(each.box)]
    one, other = on_sheet[0], next(each for each in on_sheet if each.text != on_sheet[0].text)
    texts = {id(one): other.text, id(other): one.text}
    letters = tuple(replace(each, text=texts.get(id(each), each.text)) for each in page.letters)
    assert any("/ letter " in key for key in failing(made, replace(page, letters=letters)))


def test_a_thing_that_lies_half_a_mark_off_on_its_layout_is_found() -> None:
    made = finished(PLAIN)
    page = first_page(made, NumberedLayout)
    frame = finished_page(page)
    assert frame is not None
    things = [one for one in lengths(made) if " of step " in one.claim.key and one.claim.page == page.number]
    for wanted in things:
        assert wanted.box is not None

        def off(point: Point, at: float = wanted.box.left) -> Point:
            return (point[0] - 0.2, point[1]) if abs(point[0] - at) < 0.02 else point

        forms = tuple(
            replace(form, outlines=tuple(moved(outline, off) for outline in form.outlines))
            for form in page.forms
        )
        changed = with_paths(replace(page, forms=forms), partial(moved_path, move=off))
        assert any(wanted.claim.key.startswith(key) for key in failing(made, changed))
    assert len(things) > 2


def test_rings_that_change_places_on_a_layout_are_found() -> None:
    made = finished("hill-line")
    page = first_page(made, NumberedLayout)
    frame = finished_page(page)
    assert frame is not None
    inside = [each for each in page.letters if frame.holds(each.box) and each.text in "35"]
    texts = {id(each): "5" if each.text == "3" else "3" for each in inside}
    letters = tuple(replace(each, text=texts.get(id(each), each.text)) for each in page.letters)
    found = failing(made, replace(page, letters=letters))
    assert {key.rpartition(" / ")[2] for key in found} >= {"ring 3", "ring 5"}


def test_values_of_flags_that_change_places_are_found() -> None:
    made = finished("hill-line")
    page = first_page(made, NumberedLayout)
    one, other = [word for word in page.words if word.text in ("2⁷⁄₈", "4³⁄₈") and word.box.right < 206.0][:2]
    pairs = zip(one.letters, other.letters, strict=True)
    texts = {id(a): b.text for pair in pairs for a, b in (pair, pair[::-1])}
    letters = tuple(replace(each, text=texts.get(id(each), each.text)) for each in page.letters)
    found = [key.partition(" / ")[2] for key in failing(made, replace(page, letters=letters))]
    assert [key.partition(" ")[0] for key in found] == ["flag", "flag", "layout-all-aboard"]


def test_a_figure_that_is_not_drawn_fails_with_all_its_readings() -> None:
    made = finished(PLAIN)
    page = first_page(made, CutRequest)
    lost = [one for one in lengths(made, replace(page, paths=())) if not one.holds]
    assert lost
    assert all(one.off is None and one.claim.page == page.number for one in lost)


# A scale of eighths: whole, half, quarter and eighth marks.
EIGHTHS = [(2.0 + 9.0 * at, 8.0 if at % 8 == 0 else 6.0 if at % 4 == 0 else 4.0) for at in range(25)]


def test_the_marks_of_a_scale_stand_at_one_pitch_and_come_again_in_their_lengths() -> None:
    assert marks_off(EIGHTHS, 2.0, 72.0) == pytest.approx(0.0, abs=1e-9)
    longer = [*EIGHTHS[:5], (EIGHTHS[5][0], 6.0), *EIGHTHS[6:]]
    assert marks_off(longer, 2.0, 72.0) == pytest.approx(2.0 / POINTS_PER_MM)
    beside = [*EIGHTHS[:5], (EIGHTHS[5][0] + 0.5, 4.0), *EIGHTHS[6:]]
    assert marks_off(beside, 2.0, 72.0) == pytest.approx(0.5 / POINTS_PER_MM)
    wide = [(2.0 + (place - 2.0) * 1.01, length) for place, length in EIGHTHS]
    assert marks_off(wide, 2.0, 72.0) == pytest.approx(0.01 * 24 * 9.0 / POINTS_PER_MM)


def test_longer_marks_may_stand_at_every_other_unit() -> None:
    centimetres = [(28.0 * at, 4.6 if at % 2 == 0 else 2.8) for at in range(31)]
    assert marks_off(centimetres, 0.0, 28.0) == pytest.approx(0.0, abs=1e-9)
