"""Finished files as print needs them: each check fails for a file with that defect, and holds just inside."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from io import BytesIO

import pikepdf
import pytest
from PIL import Image
from reportlab.lib.colors import Color
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from booklet.binding.binding import home_binding
from booklet.binding.lay import impose
from booklet.binding.print_file import both_sides, print_file
from booklet.binding.stock import A5, HALF_LETTER
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.kit.kit import PageFormat
from booklet.measure.length import Size
from booklet.proof.file_checks import CheckId, FileCheck, Quantity, print_checks, reading_checks
from booklet.proof.file_reader import read_file
from booklet.proof.grounds import contrast
from booklet.proof.printed import Colour
from tests.finished.kits import reading_pdf
from tests.once import read_once

WIDTH, HEIGHT = 396, 612
PAGE = HALF_LETTER.upright
MM = 72 / 25.4
Draw = Callable[[Canvas], None]


def pdf(*pages: Draw, size: tuple[float, float] = (WIDTH, HEIGHT)) -> bytes:
    """A file of some pages, each drawn by a function; its typeface lies in it."""
    held = BytesIO()
    canvas = Canvas(held, pagesize=size, invariant=1)
    for draw in pages:
        canvas.setFont(pdf_font_name(Font.SANS), 12)
        draw(canvas)
        canvas.showPage()
    canvas.save()
    return held.getvalue()


def checks_of(data: bytes, page: Size = PAGE) -> dict[CheckId, FileCheck]:
    return {check.id: check for check in reading_checks(read_file(data), page)}


def failed(data: bytes, page: Size = PAGE) -> list[str]:
    return [check.id.value for check in checks_of(data, page).values() if not check.holds]


def words(text: str = "Cut at 3", x: float = 100, y: float = 300) -> Draw:
    return lambda canvas: canvas.drawString(x, y, text)


def in_form(draw: Draw, *place: float) -> Draw:
    """Drawn in a form within a form; `place` is a matrix, from the inner one to the page."""

    def drawn(canvas: Canvas) -> None:
        canvas.beginForm("inner", 0, 0, 1000, 1000)
        canvas.setFont(pdf_font_name(Font.SANS), 12)
        draw(canvas)
        canvas.endForm()
        canvas.beginForm("outer", 0, 0, 1000, 1000)
        canvas.transform(*place)
        canvas.doForm("inner")
        canvas.endForm()
        canvas.doForm("outer")

    return drawn


def both(*draws: Draw) -> Draw:
    def drawn(canvas: Canvas) -> None:
        for draw in draws:
            draw(canvas)

    return drawn


# Booklets as they are made.


@cache
def read(name: str) -> bytes:
    return reading_pdf(name)


@pytest.mark.parametrize(
    ("name", "format"),
    [
        pytest.param("hill-line", PageFormat.HALF_LETTER, marks=pytest.mark.thorough),
        pytest.param("roof-garden", PageFormat.A5, marks=pytest.mark.thorough),
        ("plain", PageFormat.HALF_LETTER),
        ("long-names", PageFormat.A5),
    ],
)
def test_the_booklets_of_kits_are_as_print_needs_them(name: str, format: PageFormat) -> None:
    page, binding = (HALF_LETTER if format is PageFormat.HALF_LETTER else A5), home_binding(format)
    sides = print_file(read(name), binding)
    file = read_once(read(name))
    page_count = len(file.pages)
    checks = [
        *reading_checks(file, page.upright),
        *print_checks(read_once(sides), both_sides(impose(page_count, binding))),
    ]
    assert [check.id for check in checks if not check.holds] == []
    assert {check.id for check in checks} == set(CheckId)
    assert all(check.looked_at for check in checks if check.id is not CheckId.IMAGE_RESOLUTION)
    # The print file has the letters and the lines of the pages, and the two marks where it is folded.
    reading, printed = (
        [check.looked_at for check in group if check.id in (CheckId.TYPE_SIZE, CheckId.LINE_WIDTH)]
        for group in (checks[:7], checks[7:])
    )
    assert printed == [reading[0] + 2, reading[1]]


def test_a_page_of_another_kit_s_size_is_no_page_of_this_one() -> None:
    assert failed(read("plain"), A5.upright) == ["page-boxes"]


# The page.


def changed(change: Callable[[pikepdf.Page], None], which: int = 1) -> bytes:
    """A file of three pages of which one is changed."""
    held = BytesIO()
    with pikepdf.open(BytesIO(pdf(words(), words(), words()))) as file:
        change(file.pages[which])
        file.save(held)
    return held.getvalue()


def set_to(key: str, *numbers: float) -> Callable[[pikepdf.Page], None]:
    def change(page: pikepdf.Page) -> None:
        page.obj[key] = pikepdf.Array(list(numbers)) if len(numbers) > 1 else numbers[0]

    return change


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (set_to("/MediaBox", 0, 0, 396, 612.2), "MediaBox"),
        (set_to("/MediaBox", 0, 0, 419.53, 595.28), "MediaBox"),
        (set_to("/CropBox", 0, 0, 396, 600), "CropBox"),
        (set_to("/TrimBox", 9, 9, 387, 603), "TrimBox"),
        (set_to("/MediaBox", 1, 0, 397, 612), "MediaBox"),
        (set_to("/UserUnit", 2), "MediaBox"),
    ],
)
def test_a_page_of_another_size_or_elsewhere_is_a_fault(
    change: Callable[[pikepdf.Page], None], told: str
) -> None:
    data = changed(change)
    (fault,) = checks_of(data)[CheckId.PAGE_BOXES].faults
    assert fault.page == 2
    assert getattr(fault.found, "name", None) == told


def test_a_turned_page_is_a_fault() -> None:
    (fault,) = checks_of(changed(set_to("/Rotate", 180)))[CheckId.PAGE_BOXES].faults
    assert (fault.page, fault.found) == (2, Quantity(180, fault.found.measure))  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "change",
    [
        set_to("/MediaBox", 0, 0, 396.05, 612),
        set_to("/TrimBox", 0, 0, 396, 612),
        set_to("/CropBox", 0, 0, 396, 612),
        set_to("/Rotate", 0),
        set_to("/UserUnit", 1),
    ],
)
def test_a_page_whose_boxes_are_of_its_size_holds(change: Callable[[pikepdf.Page], None]) -> None:
    check = checks_of(changed(change))[CheckId.PAGE_BOXES]
    assert check.holds
    assert check.looked_at == 3


def test_boxes_that_all_pages_share_are_those_of_each() -> None:
    def shared(page: pikepdf.Page) -> None:
        page.obj.Parent.MediaBox = pikepdf.Array([0, 0, 400, 612])
        del page.obj["/MediaBox"]

    (fault,) = checks_of(changed(shared, 2))[CheckId.PAGE_BOXES].faults
    assert fault.page == 3


# Typefaces.


def in_helvetica(canvas: Canvas) -> None:
    canvas.setFont("Helvetica", 12)
    canvas.drawString(100, 300, "Cut at 3")


@pytest.mark.parametrize("draw", [in_helvetica, in_form(in_helvetica, 1, 0, 0, 1, 0, 0)])
def test_a_typeface_that_does_not_lie_in_the_file_is_a_fault(draw: Draw) -> None:
    data = pdf(words(), both(words(), draw))
    assert failed(data) == ["fonts-embedded"]
    check = checks_of(data)[CheckId.FONTS_EMBEDDED]
    assert check.looked_at == 2
    assert [(fault.page, fault.found) for fault in check.faults] == [(2, "Helvetica")]


def test_a_typeface_that_lies_in_the_file_holds() -> None:
    # reportlab names Helvetica among the resources of every page; no letter is set in it.
    data = pdf(words(), in_form(words(), 1, 0, 0, 1, 0, 0))
    assert b"Helvetica" in data
    assert failed(data) == []
    assert checks_of(data)[CheckId.FONTS_EMBEDDED].looked_at == 1


# Pictures.


def picture(pixels: int, width: float, height: float) -> Draw:
    """A grey picture, so many dots square, of a size in points."""
    image = ImageReader(Image.new("L", (pixels, pixels), 200))
    return lambda canvas: canvas.drawImage(image, 20, 20, width, height)


HALVED = (0.5, 0, 0, 0.5, 30, 30)
# Turned by 30 degrees and halved.
TURNED = (0.4330127, 0.25, -0.25, 0.4330127, 150, 30)


@pytest.mark.parametrize(
    ("draw", "dots"),
    [
        (picture(150, 72, 72), 150),
        (in_form(picture(150, 144, 144), *HALVED), 150),
        (in_form(picture(150, 144, 144), *TURNED), 150),
        (picture(300, 72, 144), 150),
        (in_form(picture(300, 72, 72), 1, 0, 0, 2, 20, 20), 150),
        (picture(199, 72, 72), 199),
    ],
)
def test_a_picture_of_fewer_than_200_dots_to_the_inch_is_a_fault(draw: Draw, dots: float) -> None:
    data = pdf(draw)
    assert failed(data) == ["image-resolution"]
    (fault,) = checks_of(data)[CheckId.IMAGE_RESOLUTION].faults
    assert value_of(fault.found) == pytest.approx(dots, abs=0.01)


@pytest.mark.parametrize(("pixels", "notes"), [(200, 1), (299, 1), (300, 0), (1200, 0)])
def test_a_picture_of_300_dots_prints_well_and_one_of_200_at_all(pixels: int, notes: int) -> None:
    check = checks_of(pdf(in_form(picture(pixels, 144, 144), *HALVED)))[CheckId.IMAGE_RESOLUTION]
    assert check.holds
    assert len(check.notes) == notes
    assert value_of(check.worst) == pytest.approx(pixels, abs=0.01)


def value_of(found: object) -> float:
    assert isinstance(found, Quantity)
    return found.value


# Lines.


def line(width: float, slope: float = 0.0) -> Draw:
    def drawn(canvas: Canvas) -> None:
        canvas.setLineWidth(width)
        canvas.line(100, 200, 200, 200 + slope)

    return drawn


@pytest.mark.parametrize(
    ("draw", "width"),
    [
        (line(0.24), 0.24),
        (line(0), 0),
        (in_form(line(0.4), *HALVED), 0.2),
        (in_form(line(0.4), *TURNED), 0.2),
        (in_form(line(0), 1, 0, 0, 1, 0, 0), 0),
        (in_form(line(1), 1, 0, 0, 0.2, 0, 0), 0.2),
    ],
)
def test_a_line_that_is_finer_than_a_quarter_of_a_point_is_a_fault(draw: Draw, width: float) -> None:
    data = pdf(both(words(), draw))
    assert failed(data) == ["line-width"]
    (fault,) = checks_of(data)[CheckId.LINE_WIDTH].faults
    assert value_of(fault.found) == pytest.approx(width, abs=1e-4)


@pytest.mark.parametrize(
    "draw",
    [line(0.25), line(0.25, 70), in_form(line(0.5), *HALVED), in_form(line(0.5), *TURNED)],
)
def test_a_line_of_a_quarter_of_a_point_holds(draw: Draw) -> None:
    data = pdf(both(words(), draw))
    assert failed(data) == []
    check = checks_of(data)[CheckId.LINE_WIDTH]
    assert check.looked_at == 1
    assert value_of(check.worst) == pytest.approx(0.25, abs=1e-4)


def test_a_fine_line_that_is_cut_off_is_not_printed() -> None:
    def hidden(canvas: Canvas) -> None:
        clip = canvas.beginPath()
        clip.rect(0, 0, 50, 50)
        canvas.clipPath(clip, stroke=0, fill=0)
        line(0.1)(canvas)

    assert failed(pdf(both(words(), in_form(hidden, 1, 0, 0, 1, 0, 0)))) == []


# Type.


def type_of(size: float) -> Draw:
    def drawn(canvas: Canvas) -> None:
        canvas.setFont(pdf_font_name(Font.SANS), size)
        canvas.drawString(150, 300, "Cut")

    return drawn


@pytest.mark.parametrize(
    ("draw", "size"),
    [
        (type_of(8), 8),
        (type_of(8.98), 8.98),
        (in_form(type_of(16), *HALVED), 8),
        (in_form(type_of(16), *TURNED), 8),
        # Pressed flat; narrow letters are no smaller.
        (in_form(type_of(16), 1, 0, 0, 0.5, 0, 0), 8),
    ],
)
def test_type_under_nine_points_is_a_fault(draw: Draw, size: float) -> None:
    data = pdf(both(words(), draw))
    assert failed(data) == ["type-size"]
    faults = checks_of(data)[CheckId.TYPE_SIZE].faults
    assert [value_of(fault.found) for fault in faults] == [pytest.approx(size, abs=1e-3)] * 3


@pytest.mark.parametrize(
    "draw",
    [
        type_of(9),
        in_form(type_of(18), *HALVED),
        in_form(type_of(18), *TURNED),
        in_form(type_of(9), 0.7, 0, 0, 1, 0, 0),
    ],
)
def test_type_of_nine_points_holds(draw: Draw) -> None:
    data = pdf(draw)
    assert failed(data) == []
    assert value_of(checks_of(data)[CheckId.TYPE_SIZE].worst) == pytest.approx(9, abs=1e-3)


# Contrast.


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # WCAG 2.2, "contrast ratio": from 1:1 to 21:1.
        ("#000000", "#ffffff", 21.0),
        ("#777777", "#777777", 1.0),
        # The lightest grey that passes on white at 4.5:1, and the next; the same at 3:1, where the next is
        # 2.995; pure colours (as checkers of WCAG commonly give them, from memory).
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#949494", "#ffffff", 3.03),
        ("#959595", "#ffffff", 3.0),
        ("#ff0000", "#ffffff", 4.00),
        ("#0000ff", "#ffffff", 8.59),
        ("#00ff00", "#ffffff", 1.37),
        ("#ffff00", "#ffffff", 1.07),
        # The palette of Okabe and Ito on white (from memory).
        ("#0072b2", "#ffffff", 5.19),
        ("#d55e00", "#ffffff", 3.87),
        ("#009e73", "#ffffff", 3.42),
        ("#cc79a7", "#ffffff", 3.06),
        ("#56b4e9", "#ffffff", 2.31),
        ("#e69f00", "#ffffff", 2.25),
        ("#f0e442", "#ffffff", 1.32),
    ],
)
def test_contrast_is_what_others_compute(one: str, other: str, ratio: float) -> None:
    assert round(contrast(rgb(one), rgb(other)), 2) == ratio
    assert contrast(rgb(one), rgb(other)) == contrast(rgb(other), rgb(one))


def rgb(colour: str) -> Colour:
    red, green, blue = bytes.fromhex(colour[1:])
    return red, green, blue


def lettered(colour: str, size: float = 12, font: str = "") -> Draw:
    def drawn(canvas: Canvas) -> None:
        canvas.setFillColor(colour)
        canvas.setFont(font or pdf_font_name(Font.SANS), size)
        canvas.drawString(150, 300, "Cut at 3")

    return drawn


def ground(colour: str) -> Draw:
    def drawn(canvas: Canvas) -> None:
        canvas.setFillColor(colour)
        canvas.rect(100, 250, 200, 100, stroke=0, fill=1)

    return drawn


def broad_line(colour: str) -> Draw:
    def drawn(canvas: Canvas) -> None:
        canvas.setStrokeColor(colour)
        canvas.setLineWidth(40)
        canvas.line(100, 304, 300, 304)

    return drawn


def photograph(*greys: int) -> Draw:
    """A picture of as many stripes, on which letters may stand."""
    image = Image.new("L", (1200, 600))
    for at, grey in enumerate(greys):
        image.paste(grey, (at * 1200 // len(greys), 0, (at + 1) * 1200 // len(greys), 600))
    return lambda canvas: canvas.drawImage(ImageReader(image), 100, 250, 200, 100)


def veil(alpha: float) -> Draw:
    """Black that lets what is below it show through."""

    def drawn(canvas: Canvas) -> None:
        canvas.saveState()
        canvas.setFillColor(Color(0, 0, 0, alpha))
        canvas.rect(100, 250, 200, 100, stroke=0, fill=1)
        canvas.restoreState()

    return drawn


@pytest.mark.parametrize(
    "draw",
    [
        lettered("#777777"),
        both(ground("#808080"), lettered("#ffffff")),
        both(broad_line("#000000"), lettered("#000000")),
        both(photograph(110), lettered("#000000")),
        both(photograph(250, 60, 250, 60, 250), lettered("#000000")),
        both(in_form(ground("#808080"), 1, 0, 0, 1, 0, 0), lettered("#ffffff")),
        # Letters of a form, and what shows through something thin.
        in_form(both(ground("#808080"), lettered("#ffffff")), 1, 0, 0, 1, 0, 0),
        in_form(lettered("#777777"), 1, 0, 0, 1, 0, 0),
        both(veil(0.5), lettered("#ffffff")),
        lettered("#949494", 17.9),
        lettered("#959595", 18),
    ],
)
def test_letters_that_do_not_stand_out_are_a_fault(draw: Draw) -> None:
    data = pdf(both(words(y=500), draw))
    assert failed(data) == ["contrast"]
    check = checks_of(data)[CheckId.CONTRAST]
    assert check.looked_at == 12
    assert {fault.page for fault in check.faults} == {1}
    assert all(value_of(fault.found) < value_of(check.limit) for fault in check.faults)


@pytest.mark.parametrize(
    "draw",
    [
        lettered("#767676"),
        lettered("#949494", 18),
        both(ground("#707070"), lettered("#ffffff")),
        both(broad_line("#dddddd"), lettered("#000000")),
        both(photograph(130), lettered("#000000")),
        both(photograph(250, 130, 250, 130, 250), lettered("#000000")),
        both(in_form(ground("#707070"), 1, 0, 0, 1, 0, 0), lettered("#ffffff")),
        in_form(both(ground("#707070"), lettered("#ffffff")), 1, 0, 0, 1, 0, 0),
        in_form(lettered("#767676"), 1, 0, 0, 1, 0, 0),
        both(veil(0.1), lettered("#000000")),
    ],
)
def test_letters_that_stand_out_hold(draw: Draw) -> None:
    data = pdf(both(words(y=500), draw))
    assert failed(data) == []
    assert checks_of(data)[CheckId.CONTRAST].looked_at == 12


@pytest.mark.parametrize(
    ("font", "size", "holds"),
    [
        ("Helvetica-Bold", 14, True),
        ("Helvetica-Bold", 13.9, False),
        ("Helvetica", 14, False),
        # Half bold is not bold.
        (Font.SANS_BOLD.value, 14, False),
    ],
)
def test_bold_type_is_large_from_fourteen_points(font: str, size: float, holds: bool) -> None:
    pdf_font_name(Font.SANS_BOLD)
    assert checks_of(pdf(lettered("#949494", size, font)))[CheckId.CONTRAST].holds == holds


# Margins.


def letter_at(left: float) -> Draw:
    """An I whose ink stands so many millimetres from the left edge."""

    def drawn(canvas: Canvas) -> None:
        canvas.drawString(left * MM - bearing(), 300, "I")

    return drawn


@cache
def bearing() -> float:
    (page,) = read_file(pdf(words("I", x=100))).pages
    return page.ink[0].box.left - 100


def stroke_to(x: float, y: float) -> Draw:
    def drawn(canvas: Canvas) -> None:
        canvas.setLineWidth(1)
        canvas.line(200, 300, x, y)

    return drawn


@pytest.mark.parametrize(
    ("draw", "margin"),
    [
        (letter_at(1), 1),
        (letter_at(2.99), 2.99),
        (letter_at(-1), -1),
        (in_form(letter_at(1), 1, 0, 0, 1, 0, 0), 1),
        (stroke_to(200, 2 * MM + 0.5), 2),
        (stroke_to(WIDTH - 2 * MM - 0.5, 300), 2),
        (stroke_to(200, HEIGHT), 0 - 0.5 / MM),
    ],
)
def test_a_letter_or_a_line_at_the_trim_is_a_fault(draw: Draw, margin: float) -> None:
    data = pdf(both(words(), draw))
    assert failed(data) == ["safe-margin"]
    (fault,) = checks_of(data)[CheckId.SAFE_MARGIN].faults
    assert value_of(fault.found) == pytest.approx(margin, abs=0.2 if margin <= 2 else 0.005)


@pytest.mark.parametrize("draw", [letter_at(3.01), stroke_to(200, 3 * MM + 0.51)])
def test_a_letter_or_a_line_within_the_safe_margin_holds(draw: Draw) -> None:
    data = pdf(both(words(), draw))
    assert failed(data) == []
    assert value_of(checks_of(data)[CheckId.SAFE_MARGIN].worst) == pytest.approx(3.0, abs=0.2)


def test_grounds_and_pictures_run_to_the_trim() -> None:
    def band(canvas: Canvas) -> None:
        canvas.setFillColor("#dddddd")
        canvas.rect(0, 0, 20, HEIGHT, stroke=0, fill=1)
        canvas.setFillColor("#000000")

    print_of_paper = in_form(both(stroke_to(0, 0), picture(1800, 200, 200)), 1, 0, 0, 1, -20, -20)
    assert failed(pdf(both(band, print_of_paper, words()))) == []


# What cannot be looked at is never held.


def with_a_tiled_pattern(data: bytes) -> bytes:
    held = BytesIO()
    with pikepdf.open(BytesIO(data)) as file:
        pattern = file.make_stream(b"0 0 5 5 re f")
        pattern.Type, pattern.PatternType, pattern.PaintType = pikepdf.Name.Pattern, 1, 1
        pattern.TilingType, pattern.XStep, pattern.YStep = 1, 10, 10
        pattern.BBox, pattern.Resources = pikepdf.Array([0, 0, 10, 10]), pikepdf.Dictionary()
        page = file.pages[0]
        page.Resources.Pattern = pikepdf.Dictionary(P=pattern)
        page.contents_add(b"q /Pattern cs /P scn 100 250 200 100 re f Q", prepend=True)
        file.save(held)
    return held.getvalue()


def with_a_stamp(data: bytes) -> bytes:
    held = BytesIO()
    with pikepdf.open(BytesIO(data)) as file:
        look = file.make_stream(b"0 0 5 5 re f", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form)
        look.BBox = pikepdf.Array([0, 0, 20, 20])
        stamp = pikepdf.Dictionary(
            Type=pikepdf.Name.Annot,
            Subtype=pikepdf.Name.Stamp,
            Rect=pikepdf.Array([50, 50, 70, 70]),
            AP=pikepdf.Dictionary(N=look),
        )
        file.pages[0].Annots = file.make_indirect(pikepdf.Array([stamp]))
        file.save(held)
    return held.getvalue()


@pytest.mark.parametrize("with_one", [with_a_tiled_pattern, with_a_stamp])
def test_what_is_painted_and_cannot_be_looked_into_is_not_held(with_one: Callable[[bytes], bytes]) -> None:
    plain = pdf(words(y=500))
    assert failed(plain) == []
    checks = checks_of(with_one(plain))
    unchecked = {check.id.value: check.unchecked for check in checks.values() if not check.holds}
    assert unchecked == {
        "fonts-embedded": 1,
        "image-resolution": 1,
        "line-width": 1,
        "type-size": 1,
        "safe-margin": 1,
    }
    assert not any(check.faults for check in checks.values())


def test_letters_on_a_tiled_pattern_are_judged_by_what_is_seen() -> None:
    # Black tiles with white between them, below black letters.
    assert "contrast" in failed(with_a_tiled_pattern(pdf(lettered("#000000"))))


def test_letters_that_are_not_simply_filled_are_not_checked() -> None:
    def outlined(canvas: Canvas) -> None:
        text = canvas.beginText(100, 300)
        text.setTextRenderMode(1)
        text.textOut("Cut")
        canvas.drawText(text)

    def faint(canvas: Canvas) -> None:
        canvas.setFillAlpha(0.2)
        words()(canvas)

    for draw in (outlined, faint):
        check = checks_of(pdf(draw))[CheckId.CONTRAST]
        assert (check.holds, check.unchecked, check.faults) == (False, 1, ())


def test_a_file_that_is_broken_beyond_its_pages_is_not_held() -> None:
    data = pdf(words())
    spoiled = changed(lambda page: page.obj.__setitem__("/UserUnit", pikepdf.Name("/Two")))
    assert failed(data) == []
    checks = checks_of(spoiled)
    assert checks[CheckId.PAGE_BOXES].unchecked == 3
    assert not checks[CheckId.PAGE_BOXES].holds
