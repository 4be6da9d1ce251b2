"""Press files as other programs read them: nothing wrong, faces embedded, letters on one of four plates."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest

from tests.press.plates import COLOURS, INKS, Plate, needs_tools, plates_of, said_by
from tests.press.small import LIMIT, small_pages

pytestmark = [needs_tools, pytest.mark.thorough]
# So many sides of each demo are looked at for their letters: covers, sheets, layouts.
SIDES = 8
BLACK, NONE = (0.0, 0.0, 0.0, 1.0), (0.0, 0.0, 0.0, 0.0)
# A state that no press file has.
UNSEEN = pikepdf.Name("/Unseen")


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


@cache
def all_plates(file: Path) -> list[dict[str, Plate]]:
    """The plates of every side of a press file, which three tests look at."""
    with TemporaryDirectory() as folder:
        return plates_of(file, Path(folder) / "plates")


def test_ghostscript_finds_nothing_wrong_and_all_ink_is_process_ink(press_file: Path) -> None:
    """It stops at whatever is wrong, and any other ink would have a plate of its own."""
    pages = all_plates(press_file)
    with pikepdf.open(press_file) as pdf:
        assert len(pages) == len(pdf.pages)
    assert all(set(plates) == set(INKS) for plates in pages)


def test_no_place_has_more_ink_than_the_limit(press_file: Path) -> None:
    for plates in all_plates(press_file):
        total = np.sum([plates[ink] for ink in INKS], axis=0, dtype=np.int32)
        # Each plate is rounded to a step of 255.
        assert total.max() <= float(LIMIT) / 100 * 255 + 4
        assert total.max() > 0


@dataclass(frozen=True)
class _Stated:
    """The inks that fill from here on, and the state, by its name, that says what they print over."""

    inks: tuple[float, ...] = BLACK
    over: pikepdf.Name | None = None


def _forms(pdf: pikepdf.Pdf) -> list[pikepdf.Stream]:
    return [
        each for each in pdf.objects if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Form"
    ]


def _without_black_letters(data: bytes) -> bytes:
    """The same file, but that letters in black leave all that is below them as it is.

    They are there, as other letters follow them on their lines; but of no ink, and printed over.
    """
    with pikepdf.open(BytesIO(data)) as pdf:
        for form in _forms(pdf):
            form.Resources.ExtGState[UNSEEN] = pikepdf.Dictionary(OP=True, op=True, OPM=1)
            form.write(_mute(pikepdf.parse_content_stream(form)))
        out = BytesIO()
        pdf.save(out)
        return out.getvalue()


def _said(operator: str, *operands: Any) -> Any:
    return pikepdf.ContentStreamInstruction(operands, pikepdf.Operator(operator))


def _mute(read: Any) -> bytes:
    kept, now = [], _Stated()
    saved: list[_Stated] = []
    for each in read:
        match str(each.operator):
            case "k":
                now = replace(now, inks=tuple(float(ink) for ink in each.operands))
            case "gs":
                now = replace(now, over=each.operands[0])
            case "q":
                saved.append(now)
            case "Q":
                now = saved.pop()
            case "Tj" | "TJ" | "'" if now.inks == BLACK:
                assert now.over is not None, "letters, and nothing says what they print over"
                kept += [_said("gs", UNSEEN), _said("k", *NONE), each]
                kept += [_said("gs", now.over), _said("k", *BLACK)]
                continue
        kept.append(each)
    return pikepdf.unparse_content_stream(kept)


def _inks_below_letters_change(with_letters: dict[str, Plate], without: dict[str, Plate]) -> bool:
    return any((with_letters[ink] != without[ink]).any() for ink in COLOURS)


@pytest.mark.parametrize("demo", ["hill-line", "roof-garden"])
def test_letters_lie_on_black_alone(demo: str, press_folder: Path, tmp_path: Path) -> None:
    """Cyan, magenta and yellow are the same with black letters and without: they knock nothing out."""
    lettered = press_folder / f"{demo}-press-sheets.pdf"
    mute = tmp_path / "mute.pdf"
    mute.write_bytes(_without_black_letters(lettered.read_bytes()))
    with_all = all_plates(lettered)[:SIDES]
    with_none = plates_of(mute, tmp_path / "none", last=SIDES)
    for page, with_letters, without in zip(pdfium.PdfDocument(lettered), with_all, with_none, strict=False):
        assert not _inks_below_letters_change(with_letters, without)
        more = with_letters["Black"].astype(np.int32) - without["Black"]
        assert more.min() >= 0
        assert _is_within_letters(more > 0, page)


def test_letters_that_knock_out_what_is_below_them_show_on_other_plates(tmp_path: Path) -> None:
    """What is looked for above is found where nothing that is filled overprints, and not before."""
    assert not _letters_knock_out(small_pages(), tmp_path / "sound")
    assert _letters_knock_out(_knocking_out(small_pages()), tmp_path / "knocking out")


def _letters_knock_out(data: bytes, folder: Path) -> bool:
    plates = []
    for name, file in (("lettered", data), ("mute", _without_black_letters(data))):
        (folder / name).mkdir(parents=True)
        (folder / f"{name}.pdf").write_bytes(file)
        plates.append(plates_of(folder / f"{name}.pdf", folder / name / "plates"))
    return any(_inks_below_letters_change(*page) for page in zip(*plates, strict=True))


def _knocking_out(data: bytes) -> bytes:
    with pikepdf.open(BytesIO(data)) as pdf:
        for form in _forms(pdf):
            for state in form.Resources.ExtGState.values():
                state.op = False
        out = BytesIO()
        pdf.save(out)
        return out.getvalue()


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
