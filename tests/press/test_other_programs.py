"""Press files as other programs read them: nothing wrong, faces embedded, letters on one of four plates."""

from __future__ import annotations

import re
from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest

from tests.press.plates import COLOURS, INKS, Plate, ghostscript, needs_tools, plates_of, said_by
from tests.press.small import LIMIT, small_pages

pytestmark = needs_tools
# So many sides of each demo are looked at for their letters: covers, sheets, layouts.
SIDES = 8
BLACK, NONE = [0.0, 0.0, 0.0, 1.0], [0.0, 0.0, 0.0, 0.0]


def test_qpdf_finds_nothing_wrong(press_file: Path) -> None:
    assert "No syntax or stream encoding errors" in said_by("qpdf", "--check", press_file)
    with pikepdf.open(press_file) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_poppler_reads_the_boxes_and_embedded_faces(press_file: Path) -> None:
    told = said_by("pdfinfo", "-box", "-f", "1", "-l", "1", press_file)
    assert "PDF version:     1.4" in told
    assert re.search(r"PDF subtype:\s+PDF/X-1a:2003", told)
    boxes = {
        name: [float(edge) for edge in edges.split()]
        for name, edges in re.findall(r"(Media|Bleed|Trim)Box:((?:\s+[\d.]+){4})", told)
    }
    assert boxes["Media"][0] < boxes["Bleed"][0] < boxes["Trim"][0]
    assert boxes["Trim"][2] < boxes["Bleed"][2] < boxes["Media"][2]
    faces = said_by("pdffonts", press_file).splitlines()[2:]
    assert len(faces) >= 4
    assert all(re.search(r"\byes yes (yes|no)\b", face) for face in faces)


def test_ghostscript_finds_nothing_wrong_and_all_ink_is_process_ink(press_file: Path) -> None:
    """It stops at whatever is wrong, and says nothing but the ink of each page."""
    pages = ghostscript("inkcov", press_file, "-o", "-").splitlines()
    with pikepdf.open(press_file) as pdf:
        assert len(pages) == len(pdf.pages)
    assert all(page.endswith("CMYK OK") for page in pages)


@cache
def all_plates(file: Path) -> list[dict[str, Plate]]:
    """The plates of every side of a press file, which two tests look at."""
    with TemporaryDirectory() as folder:
        return plates_of(file, Path(folder) / "plates")


def test_there_are_four_plates_and_no_place_with_more_ink_than_the_limit(press_file: Path) -> None:
    for plates in all_plates(press_file):
        assert set(plates) == set(INKS)
        total = np.sum([plates[ink] for ink in INKS], axis=0, dtype=np.int32)
        # Each plate is rounded to a step of 255.
        assert total.max() <= float(LIMIT) / 100 * 255 + 4
        assert total.max() > 0


def _without_black_letters(data: bytes) -> bytes:
    """The same file, but that no letters in black are shown: no ink that overprints leaves all as it is."""
    with pikepdf.open(BytesIO(data)) as pdf:
        forms = [each for each in pdf.objects if isinstance(each, pikepdf.Stream)]
        for stream in forms:
            if stream.get("/Subtype") == "/Form":
                stream.write(_mute(pikepdf.parse_content_stream(stream)))
        out = BytesIO()
        pdf.save(out)
        return out.getvalue()


def _set_to(inks: list[float]) -> Any:
    return pikepdf.ContentStreamInstruction(inks, pikepdf.Operator("k"))


def _mute(read: Any) -> bytes:
    kept, fill = [], BLACK
    saved: list[list[float]] = []
    for each in read:
        match str(each.operator):
            case "k":
                fill = [float(ink) for ink in each.operands]
            case "q":
                saved.append(fill)
            case "Q":
                fill = saved.pop()
            case "Tj" | "TJ" | "'" if fill == BLACK:
                kept += [_set_to(NONE), each, _set_to(BLACK)]
                continue
        kept.append(each)
    return pikepdf.unparse_content_stream(kept)


@pytest.mark.parametrize("demo", ["hill-line", "roof-garden"])
def test_letters_lie_on_black_alone(demo: str, press_folder: Path, tmp_path: Path) -> None:
    """Cyan, magenta and yellow are the same with black letters and without: they knock nothing out."""
    lettered = press_folder / f"{demo}-press-sheets.pdf"
    mute = tmp_path / "mute.pdf"
    mute.write_bytes(_without_black_letters(lettered.read_bytes()))
    with_all = all_plates(lettered)[:SIDES]
    with_none = plates_of(mute, tmp_path / "none", last=SIDES)
    for page, with_letters, without in zip(pdfium.PdfDocument(lettered), with_all, with_none, strict=False):
        for ink in COLOURS:
            assert (with_letters[ink] == without[ink]).all()
        more = with_letters["Black"].astype(np.int32) - without["Black"]
        assert more.min() >= 0
        assert _is_within_letters(more > 0, page)


def _is_within_letters(changed: Any, page: Any) -> bool:
    """Whether what changed lies in the boxes of letters that a third program finds, and much of them did."""
    height, scale = page.get_height(), changed.shape[1] / page.get_width()
    letters = page.get_textpage()
    boxes = np.zeros_like(changed)
    for at in range(letters.count_chars()):
        left, bottom, right, top = letters.get_charbox(at, loose=True)
        boxes[
            max(0, int((height - top) * scale) - 1) : int((height - bottom) * scale) + 2,
            max(0, int(left * scale) - 1) : int(right * scale) + 2,
        ] = True
    return bool((boxes | ~changed).all()) and changed.sum() > 0.05 * boxes.sum()


def test_a_page_of_letters_has_ink_on_the_black_plate_only(tmp_path: Path) -> None:
    """Its title's rule in the accent is taken off; the marks of register are outside the bleed."""
    file = tmp_path / "letters.pdf"
    with pikepdf.open(BytesIO(small_pages())) as pdf:
        form = next(iter(pdf.pages[2].obj.Resources.XObject.values()))
        shows = [each for each in pikepdf.parse_content_stream(form) if str(each.operator) not in _PAINTS]
        form.write(pikepdf.unparse_content_stream(shows))
        trim = pdf.pages[2].obj.TrimBox
        pdf.pages[2].obj.CropBox = trim
        del pdf.pages[3], pdf.pages[1], pdf.pages[0]
        pdf.save(file)
    (plates,) = plates_of(file, tmp_path / "plates", 72)
    inner = {ink: plate[60:-60, 60:-60] for ink, plate in plates.items()}
    assert all(inner[ink].sum() == 0 for ink in COLOURS if ink in inner)
    assert inner["Black"].max() == 255


_PAINTS = {"S", "s", "f", "f*", "B", "B*", "b", "b*", "Do"}
