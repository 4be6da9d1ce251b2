"""The finished file in a bindery: printed, cut, folded, nested and leafed through, it is the booklet.

The table (`workshop.py`) does not know how pages are imposed.  Each fault that is put into the imposition on
purpose spoils the book.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from booklet.binding import copies, lay, print_file, signature, write
from booklet.binding.binding import Binding, Flat, Flip, Folded, home_binding
from booklet.binding.creep import FOLD_FACTORS, Creep
from booklet.binding.sides import Box, ImposedSheet, ImposedSide, Line
from booklet.binding.signature import PressSheet, PressSide
from booklet.binding.stock import (
    A3,
    A4,
    A5,
    HALF_LETTER,
    LEGAL,
    LETTER,
    SQUARE_6_IN,
    SQUARE_15_CM,
    SRA3,
    TABLOID,
    PaperStock,
    read_press_sheet,
)
from booklet.kit.bundled import find_spec
from booklet.kit.kit import PageFormat
from booklet.kit.load import load_kit, parse_kit
from booklet.measure.length import Unit
from booklet.placing.resolved import resolve_kit
from tests.bindery.marks import fold_marks, read_marks
from tests.bindery.pictures import (
    Picture,
    Side,
    is_same,
    part,
    rendered,
    rendered_page,
    shift_across,
    shift_down,
)
from tests.bindery.sources import MARGIN, numbered_booklet
from tests.bindery.workshop import SpoiledError, Work, bound, printed, printed_by_hand
from tests.finished.kits import PLAIN
from tests.once import laid_once, written_once

# How well a rendering tells where something lies, in points: a fifth is 0.07 mm.
EXACT = 0.2
INNER = Fraction(MARGIN)
# No booklet here has more.
MOST_PAGES = 64
NESTED = Folded(inner_margin=INNER)
FLIPS = [pytest.param(flip, id=f"{flip.value} edge") for flip in Flip]
TRAYS = {"face-down": print_file.OutputStack.FACE_DOWN, "face-up": print_file.OutputStack.FACE_UP}


def size_of(page: PaperStock) -> tuple[float, float]:
    return float(page.upright.width), float(page.upright.height)


def source(page_count: int, page: PaperStock) -> bytes:
    return numbered_booklet(page_count, size_of(page))


def reading(page_count: int, page: PaperStock) -> tuple[Picture, ...]:
    return tuple(reading_page(number, page) for number in range(1, page_count + 1))


@cache
def reading_page(number: int, page: PaperStock) -> Picture:
    """A page by its number, which looks the same in a booklet of any length."""
    return as_large_as(page, rendered_page(source(MOST_PAGES, page), number))


def as_large_as(page: PaperStock, side: Side) -> Picture:
    """A page of a reading file, as large as a page is."""
    return part(side.picture, 0, 0, size_of(page))


def work_of(binding: Binding, stands: int = 1) -> Work:
    """What the person at the table is told."""
    style = binding.style
    pushed = 0.0
    if isinstance(style, Folded) and style.creep is not None:
        pushed = float(style.creep.factor) * float(style.creep.caliper)
    return Work(
        page=size_of(binding.page),
        flip=binding.flip.value,
        copies=stands,
        nested=style.sheets_in_signature if isinstance(style, Folded) else None,
        is_flat=isinstance(style, Flat),
        pushed=pushed,
    )


def check_books(books: list[list[Picture]], wanted: tuple[Picture, ...]) -> None:
    """Every book has every page, in order, upright, in its place; beyond them there is at most a blank."""
    for book in books:
        pages = book[: len(wanted)]
        assert len(pages) == len(wanted)
        assert not any(blank.any() for blank in book[len(wanted) :])
        for number, (found, page) in enumerate(zip(pages, wanted, strict=True), 1):
            assert is_same(found, page), f"page {number} shows {which(found, wanted)}"
            assert abs(shift_across(found, page)) < EXACT, f"page {number}"
            assert abs(shift_down(found, page)) < EXACT, f"page {number}"


def which(found: Picture, wanted: tuple[Picture, ...]) -> str:
    same = [str(number) for number, page in enumerate(wanted, 1) if is_same(found, page)]
    return f"page {', '.join(same)}" if same else "no page"


def make_and_check(page_count: int, binding: Binding, stands: int = 1) -> None:
    """A booklet of so many pages, printed on both sides, bound, and read; so many copies stand on a sheet."""
    wanted = reading(page_count, binding.page)
    sides = rendered(print_file.print_file(source(page_count, binding.page), binding))
    work = work_of(binding, stands)
    check_books(bound(printed(sides, work.flip), work, wanted[0]), wanted)


def make_by_hand_and_check(page_count: int, binding: Binding, tray: str, stands: int = 1) -> None:
    """The same on a printer that prints one side at a time."""
    wanted = reading(page_count, binding.page)
    files = print_file.print_files_by_hand(source(page_count, binding.page), binding, TRAYS[tray])
    work, (fronts, backs) = work_of(binding, stands), map(rendered, files)
    check_books(bound(printed_by_hand(fronts, backs, work, tray), work, wanted[0]), wanted)


# One nested signature.


# Between thirty-six pages and the most, nothing is laid otherwise.
@pytest.mark.parametrize(
    "page_count",
    [
        pytest.param(count, marks=[pytest.mark.thorough] if 36 < count < MOST_PAGES else [])
        for count in range(4, MOST_PAGES + 1, 4)
    ],
)
def test_a_nested_booklet_reads_in_order(page_count: int) -> None:
    flip = Flip.LONG_EDGE if page_count % 8 else Flip.SHORT_EDGE
    make_and_check(page_count, Binding(SQUARE_15_CM, read_press_sheet("310x160mm"), flip=flip))


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize("format", PageFormat)
def test_every_page_format_reads_in_order_on_its_usual_paper(format: PageFormat, flip: Flip) -> None:
    make_and_check(8, home_binding(format, flip))


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(
    ("page", "press"),
    [
        (HALF_LETTER, LEGAL),
        (HALF_LETTER, SRA3),
        (A5, TABLOID),
        (A4, SRA3),
        (SQUARE_15_CM, read_press_sheet("12 1/2 x 7 1/2 in")),
        (SQUARE_6_IN, read_press_sheet("320x210mm")),
    ],
    ids=lambda stock: stock.title,
)
def test_other_press_sheets_hold_the_pages_in_their_middle(
    page: PaperStock, press: PaperStock, flip: Flip
) -> None:
    make_and_check(8, Binding(page, press, flip=flip))


@pytest.mark.parametrize(
    ("binding", "stands"),
    [
        (home_binding(PageFormat.HALF_LETTER), 1),
        (Binding(HALF_LETTER, LETTER, Folded(4), flip=Flip.LONG_EDGE), 1),
        (Binding(HALF_LETTER, LETTER, Flat(), copies=2), 2),
    ],
    ids=["usual", "signatures", "flat, two copies"],
)
@pytest.mark.parametrize("kit", ["a small kit", pytest.param("hill-line", marks=pytest.mark.thorough)])
def test_the_booklet_of_a_kit_reads_in_order(kit: str, binding: Binding, stands: int) -> None:
    file, wanted, work = booklet_of(kit), pages_of(kit), work_of(binding, stands)
    sides = rendered(print_file.print_file(file, binding))
    check_books(bound(printed(sides, work.flip), work, wanted[0]), wanted)


@cache
def booklet_of(kit: str) -> bytes:
    loaded = load_kit(find_spec(kit)) if kit == "hill-line" else parse_kit(PLAIN, "plain.yaml", Path())
    return written_once(laid_once(resolve_kit(loaded)))


@cache
def pages_of(kit: str) -> tuple[Picture, ...]:
    return tuple(as_large_as(HALF_LETTER, side) for side in rendered(booklet_of(kit)))


# Several signatures.


@pytest.mark.parametrize("sheets", [1, 2, 3, 4, 5, 6])
@pytest.mark.parametrize("page_count", [8, 20, 36])
def test_signatures_behind_one_another_read_in_order(page_count: int, sheets: int) -> None:
    flip = Flip.LONG_EDGE if sheets % 2 else Flip.SHORT_EDGE
    make_and_check(page_count, Binding(A5, A4, Folded(sheets), flip=flip))


# Flat leaves.


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize("page_count", [1, 2, 5, 8])
def test_flat_leaves_read_in_order(page_count: int, flip: Flip) -> None:
    make_and_check(page_count, Binding(A4, A4, Flat(), flip=flip))


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(
    ("page", "press"), [(HALF_LETTER, LETTER), (SQUARE_15_CM, A4)], ids=lambda stock: stock.title
)
def test_a_flat_leaf_smaller_than_the_paper_is_cut_out_at_its_marks(
    page: PaperStock, press: PaperStock, flip: Flip
) -> None:
    make_and_check(3, Binding(page, press, Flat(), flip=flip))


# Copies.


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(
    ("page", "press", "style", "stands"),
    [
        (A5, A3, NESTED, 2),  # turned by a quarter
        (HALF_LETTER, TABLOID, NESTED, 2),
        (SQUARE_6_IN, TABLOID, Flat(), 2),
        (SQUARE_15_CM, SRA3, NESTED, 3),  # turned
        (HALF_LETTER, TABLOID, Flat(), 4),
        (HALF_LETTER, LETTER, Flat(), 2),  # turned
        (A5, SRA3, Flat(), 4),
    ],
)
def test_as_many_copies_as_fit_each_read_in_order(
    page: PaperStock, press: PaperStock, style: Folded | Flat, stands: int, flip: Flip
) -> None:
    make_and_check(4, Binding(page, press, style, copies=None, flip=flip), stands)


# Two columns of two rows, of which one place stays empty.
THREE_OF_FOUR = Binding(A5, read_press_sheet("330x440mm"), Flat(), copies=3)
OF_FOUR_FOLDED = Binding(A5, read_press_sheet("600x430mm"), NESTED, copies=3)


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize("binding", [THREE_OF_FOUR, OF_FOUR_FOLDED], ids=["flat", "folded"])
def test_fewer_copies_than_fit_each_read_in_order(binding: Binding, flip: Flip) -> None:
    make_and_check(4, replace(binding, flip=flip), 3)


# One side at a time.


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize("tray", TRAYS)
@pytest.mark.parametrize(
    ("page_count", "style"),
    [(16, NESTED), (12, Folded(2)), (5, Flat())],
    ids=["nested", "signatures", "flat"],
)
def test_a_stack_that_goes_back_in_reads_in_order(
    page_count: int, style: Folded | Flat, tray: str, flip: Flip
) -> None:
    make_by_hand_and_check(page_count, Binding(A5, A4, style, flip=flip), tray)


def test_copies_printed_one_side_at_a_time_each_read_in_order() -> None:
    binding = Binding(A5, A3, Folded(2), copies=2, flip=Flip.LONG_EDGE)
    make_by_hand_and_check(12, binding, "face-down", 2)


# Creep.


def crept(factor: str, caliper: str, page: PaperStock, press: PaperStock, **other: Any) -> Binding:
    """A binding for paper of a caliper in millimetres."""
    creep = Creep(Fraction(caliper) * Unit.MILLIMETRE.points, FOLD_FACTORS[factor])
    return Binding(page, press, Folded(creep=creep, inner_margin=INNER), **other)


@pytest.mark.parametrize("factor", FOLD_FACTORS)
def test_a_thick_booklet_trimmed_at_its_face_shows_every_page_in_its_place(factor: str) -> None:
    make_and_check(32, crept(factor, "0.2", HALF_LETTER, LETTER))


@pytest.mark.parametrize("flip", FLIPS)
def test_thick_signatures_and_copies_show_every_page_in_its_place(flip: Flip) -> None:
    binding = crept("square", "0.3", A5, A3, copies=2, flip=flip)
    make_and_check(16, binding, 2)
    assert isinstance(binding.style, Folded)
    make_and_check(20, replace(binding, style=replace(binding.style, sheets_in_signature=3)), 2)


@pytest.mark.parametrize(("factor", "times"), [("simple", 1.0), ("round", 3.14159265 / 2), ("square", 2.0)])
def test_the_pages_of_the_sheet_k_lie_f_k_t_nearer_to_the_fold(factor: str, times: float) -> None:
    wanted = reading(36, SQUARE_6_IN)
    binding = crept(factor, "0.15", SQUARE_6_IN, TABLOID)
    sides = rendered(print_file.print_file(source(36, SQUARE_6_IN), binding))
    fronts, backs = sides[::2], sides[1::2]
    fold = fold_marks_on_sheet(fronts[0])
    for k, (front, back) in enumerate(zip(fronts, backs, strict=True)):
        push = times * k * 0.15 * 72 / 25.4
        first, last = wanted[2 * k], wanted[35 - 2 * k]
        assert shift_across(right_of(front, fold, binding), first) == pytest.approx(-push, abs=EXACT)
        assert shift_across(left_of(front, fold, binding), last) == pytest.approx(push, abs=EXACT)
        second = wanted[2 * k + 1]
        assert shift_across(left_of(back, back.width - fold, binding), second) == pytest.approx(
            push, abs=EXACT
        )
        # The face is trimmed as far from the fold as the page has moved.
        cuts = read_marks(front.picture).across
        assert [fold - cuts[0], cuts[-1] - fold] == pytest.approx([432 - push] * 2, abs=EXACT)


def fold_marks_on_sheet(front: Side) -> float:
    """Where the sheet is folded, once its margins are cut off."""
    cuts = read_marks(front.picture)
    size = (cuts.across[-1] - cuts.across[0], cuts.down[-1] - cuts.down[0])
    return cuts.across[0] + fold_marks(part(front.picture, cuts.across[0], cuts.down[0], size))


def right_of(side: Side, fold: float, binding: Binding) -> Picture:
    size = size_of(binding.page)
    return part(side.picture, fold, (side.height - size[1]) / 2, size)


def left_of(side: Side, fold: float, binding: Binding) -> Picture:
    size = size_of(binding.page)
    return part(side.picture, fold - size[0], (side.height - size[1]) / 2, size)


def test_without_a_caliper_nothing_moves() -> None:
    sides = rendered(print_file.print_file(source(36, SQUARE_6_IN), Binding(SQUARE_6_IN, TABLOID)))
    binding = Binding(SQUARE_6_IN, TABLOID)
    fold = fold_marks_on_sheet(sides[0])
    for k, front in enumerate(sides[::2]):
        assert abs(shift_across(right_of(front, fold, binding), reading(36, SQUARE_6_IN)[2 * k])) < EXACT


# Faults put in on purpose: each spoils the book.


def swap_pages(patch: pytest.MonkeyPatch) -> None:
    order = signature.saddle_stitched

    def swapped(*asked: Any) -> tuple[PressSheet, ...]:
        first, second, *rest = order(*asked)
        one, other = first.back, second.front
        return (
            replace(first, back=PressSide(other.left, one.right)),
            replace(second, front=PressSide(one.left, other.right)),
            *rest,
        )

    patch.setattr(lay, "saddle_stitched", swapped)


def change_left_and_right(patch: pytest.MonkeyPatch) -> None:
    order = signature.saddle_stitched

    def mirrored(*asked: Any) -> tuple[PressSheet, ...]:
        return tuple(
            replace(sheet, back=PressSide(sheet.back.right, sheet.back.left)) for sheet in order(*asked)
        )

    patch.setattr(lay, "saddle_stitched", mirrored)


def forget_the_half_turn(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(lay, "behind", lambda *asked: replace(copies.behind(*asked), turn=-asked[0].turn % 4))


def nest_one_sheet_more(patch: pytest.MonkeyPatch) -> None:
    order = signature.saddle_stitched
    patch.setattr(lay, "saddle_stitched", lambda count, each: order(count, each + 1 if each else each))


def push_outwards(patch: pytest.MonkeyPatch) -> None:
    shift = Creep.shift
    patch.setattr(Creep, "shift", lambda creep, depth: -shift(creep, depth))


def push_the_outermost_most(patch: pytest.MonkeyPatch) -> None:
    shift = Creep.shift
    patch.setattr(Creep, "shift", lambda creep, depth: shift(creep, 7 - depth))


def push_half_as_far(patch: pytest.MonkeyPatch) -> None:
    shift = Creep.shift
    patch.setattr(Creep, "shift", lambda creep, depth: shift(creep, depth) / 2)


def deal_backs_the_other_way(patch: pytest.MonkeyPatch) -> None:
    backs = print_file.backs_by_hand
    patch.setattr(print_file, "backs_by_hand", lambda *asked: backs(*asked)[::-1])


def leave_out_the_blank_back(patch: pytest.MonkeyPatch) -> None:
    backs = print_file.backs_by_hand
    patch.setattr(print_file, "backs_by_hand", lambda *asked: [side for side in backs(*asked) if side.pages])


def print_backs_unmirrored(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(lay, "behind", lambda copy, *_: copy)


def turn_quarters_the_same_way(patch: pytest.MonkeyPatch) -> None:
    behind = copies.behind
    patch.setattr(lay, "behind", lambda copy, sheet, flip: replace(behind(copy, sheet, flip), turn=copy.turn))


def exchange_front_and_back(patch: pytest.MonkeyPatch) -> None:
    def exchanged(sheets: tuple[ImposedSheet, ...]) -> list[ImposedSide]:
        first, second, *rest = [side for sheet in sheets for side in sheet.sides]
        return [replace(second, is_front=True), replace(first, is_front=False), *rest]

    patch.setattr(print_file, "both_sides", exchanged)


def exchange_two_sheets(patch: pytest.MonkeyPatch) -> None:
    def exchanged(sheets: tuple[ImposedSheet, ...]) -> list[ImposedSide]:
        first, second, third, *rest = sheets
        return [side for sheet in (first, third, second, *rest) for side in sheet.sides]

    patch.setattr(print_file, "both_sides", exchanged)


def moved(box: Box, by: Fraction) -> Box:
    return Box(box.left + by, box.bottom, box.right + by, box.top)


def let_a_page_slip(patch: pytest.MonkeyPatch) -> None:
    """By half a millimetre, on one side."""
    impose, slip = lay.impose, Unit.MILLIMETRE.points / 2

    def slipped(*asked: Any) -> tuple[ImposedSheet, ...]:
        first, *rest = impose(*asked)
        page, *others = first.back.pages
        back = replace(first.back, pages=(replace(page, trim=moved(page.trim, slip)), *others))
        return (replace(first, back=back), *rest)

    patch.setattr(print_file, "impose", slipped)


def mark_the_cuts_beside(patch: pytest.MonkeyPatch) -> None:
    """By a millimetre."""
    cuts, off = lay._cuts, Unit.MILLIMETRE.points

    def beside(*asked: Any) -> list[Line]:
        return [
            replace(line, x0=line.x0 + off, x1=line.x1 + off) if line.is_upright else line
            for line in cuts(*asked)
        ]

    patch.setattr(lay, "_cuts", beside)


def mark_the_fold_beside(patch: pytest.MonkeyPatch) -> None:
    line_on, off = lay._line_on, Unit.MILLIMETRE.points

    def beside(*asked: Any) -> Line:
        line = line_on(*asked)
        return replace(line, x0=line.x0 + off, x1=line.x1 + off)

    patch.setattr(lay, "_line_on", beside)


def show_a_page_upside_down(patch: pytest.MonkeyPatch) -> None:
    placed = write._placed
    patch.setattr(write, "_placed", lambda page: placed(replace(page, turn=(page.turn + 2) % 4)))


LONG = Binding(A5, A4, flip=Flip.LONG_EDGE)
SHORT = Binding(A5, A4)
Fault = Callable[[pytest.MonkeyPatch], None]
FAULTS: list[tuple[Fault, int, Binding, int]] = [
    (swap_pages, 8, SHORT, 1),
    (change_left_and_right, 4, SHORT, 1),
    (forget_the_half_turn, 4, LONG, 1),
    (forget_the_half_turn, 2, Binding(A4, A4, Flat()), 1),
    (nest_one_sheet_more, 16, Binding(A5, A4, Folded(2)), 1),
    (push_outwards, 32, crept("round", "0.1", A5, A3), 1),
    (push_the_outermost_most, 32, crept("round", "0.1", A5, A3), 1),
    (push_half_as_far, 32, crept("round", "0.1", A5, A3), 1),
    (print_backs_unmirrored, 2, THREE_OF_FOUR, 3),
    (turn_quarters_the_same_way, 4, Binding(A5, A3, copies=2), 2),
    (exchange_front_and_back, 8, SHORT, 1),
    (exchange_two_sheets, 16, SHORT, 1),
    (let_a_page_slip, 8, SHORT, 1),
    (mark_the_cuts_beside, 3, Binding(SQUARE_6_IN, LETTER, Flat()), 1),
    (mark_the_fold_beside, 8, Binding(SQUARE_6_IN, LEGAL), 1),
    (show_a_page_upside_down, 8, SHORT, 1),
]


@pytest.mark.parametrize(
    ("fault", "page_count", "binding", "stands"), FAULTS, ids=lambda value: getattr(value, "__name__", "")
)
def test_a_fault_of_the_imposition_spoils_the_book(
    fault: Fault, page_count: int, binding: Binding, stands: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    make_and_check(page_count, binding, stands)
    fault(monkeypatch)
    with pytest.raises((AssertionError, SpoiledError)):
        make_and_check(page_count, binding, stands)


@pytest.mark.parametrize("tray", TRAYS)
@pytest.mark.parametrize(
    ("fault", "page_count", "binding"),
    [
        (deal_backs_the_other_way, 8, SHORT),
        (leave_out_the_blank_back, 5, Binding(A4, A4, Flat())),
        (forget_the_half_turn, 8, LONG),
    ],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_a_fault_of_the_backs_spoils_the_book_that_is_printed_by_hand(
    fault: Fault, page_count: int, binding: Binding, tray: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    make_by_hand_and_check(page_count, binding, tray)
    fault(monkeypatch)
    with pytest.raises((AssertionError, SpoiledError)):
        make_by_hand_and_check(page_count, binding, tray)


def test_a_stack_put_back_the_wrong_way_spoils_the_book() -> None:
    wanted = reading(8, A5)
    files = print_file.print_files_by_hand(source(8, A5), SHORT, TRAYS["face-up"])
    fronts, backs = map(rendered, files)
    sheets = printed_by_hand(fronts, backs, work_of(SHORT), "face-down")
    with pytest.raises(AssertionError):
        check_books(bound(sheets, work_of(SHORT), wanted[0]), wanted)


def test_the_table_does_not_know_how_pages_are_imposed() -> None:
    for module in ("workshop", "marks", "pictures"):
        text = (Path(__file__).parent / f"{module}.py").read_text(encoding="utf-8")
        assert "booklet." not in text
