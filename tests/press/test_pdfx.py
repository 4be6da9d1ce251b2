"""The checker of press files: good files have nothing to tell, and each clause has faults that it finds.

Each fault is put into a good file by pikepdf; the clauses are those that descriptions of ISO 15930-4 name.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pikepdf
import pytest

from booklet.proof.pdfx import pdfx_breaches
from booklet.proof.press_clauses import Breach, Clause, breach_text
from tests.press.small import LIMIT, small_pages, small_sheets

_AS_IT_IS = pikepdf.StreamDecodeLevel.none
Name, Dictionary, Array = pikepdf.Name, pikepdf.Dictionary, pikepdf.Array


def spoiled(change: Callable[[Any], None], **saving: Any) -> bytes:
    """The small file of single pages with one thing changed."""
    with pikepdf.open(BytesIO(small_pages())) as pdf:
        change(pdf)
        out = BytesIO()
        kept = {} if "encryption" in saving else {"stream_decode_level": _AS_IT_IS, "compress_streams": False}
        pdf.save(out, **{"force_version": "1.4", **kept, **saving})
        return out.getvalue()


def unchanged(pdf: Any) -> None:
    """Nothing."""


def found_in(data: bytes) -> set[Clause]:
    return {breach.clause for breach in pdfx_breaches(data, LIMIT)}


@pytest.mark.parametrize("made", [small_pages, small_sheets])
def test_a_good_file_has_nothing_to_tell(made: Callable[[], bytes]) -> None:
    assert pdfx_breaches(made(), LIMIT) == ()
    assert pdfx_breaches(spoiled(unchanged), LIMIT) == ()


# Changes of a file.


def page(pdf: Any, number: int = 2) -> Any:
    return pdf.pages[number - 1].obj


def intent(pdf: Any) -> Any:
    return pdf.Root.OutputIntents[0]


def add_code(code: str) -> Callable[[Any], None]:
    """More operators at the end of a page."""

    def change(pdf: Any) -> None:
        pdf.pages[1].contents_add(code.encode(), prepend=False)

    return change


def add_state(**entries: Any) -> Callable[[Any], None]:
    def change(pdf: Any) -> None:
        page(pdf).Resources.ExtGState["/More"] = Dictionary(**entries)

    return change


def add_thing(**entries: Any) -> Callable[[Any], None]:
    """A thing that a page may show."""

    def change(pdf: Any) -> None:
        thing = pdf.make_stream(b"")
        for key, value in entries.items():
            thing[f"/{key}"] = value
        page(pdf).Resources.XObject["/More"] = thing

    return change


def put(where: Callable[[Any], Any], key: str, value: Any) -> Callable[[Any], None]:
    def change(pdf: Any) -> None:
        where(pdf)[key] = value

    return change


def drop(where: Callable[[Any], Any], key: str) -> Callable[[Any], None]:
    def change(pdf: Any) -> None:
        del where(pdf)[key]

    return change


def second_intent(pdf: Any) -> None:
    pdf.Root.OutputIntents.append(pdf.make_indirect(Dictionary(intent(pdf))))


def without_face(pdf: Any) -> None:
    descriptor = next(each for each in pdf.objects if isinstance(each, Dictionary) and "/FontFile2" in each)
    del descriptor["/FontFile2"]


def standard_face(pdf: Any) -> None:
    font = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)
    page(pdf).Resources["/Font"] = Dictionary(F9=font)


def pictures(pdf: Any) -> list[Any]:
    return [
        each for each in pdf.objects if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Image"
    ]


def picture_in_rgb(pdf: Any) -> None:
    pictures(pdf)[0].ColorSpace = Name.DeviceRGB


def picture_in_full_ink(pdf: Any) -> None:
    (picture, *_) = pictures(pdf)
    picture.write(bytes([255, 255, 9, 255]) * (int(picture.Width) * int(picture.Height)))


def picture_with_mask(pdf: Any) -> None:
    pictures(pdf)[0]["/SMask"] = pdf.make_stream(b"")


def note(kind: str, box: list[int]) -> Callable[[Any], None]:
    def change(pdf: Any) -> None:
        page(pdf)["/Annots"] = Array([Dictionary(Type=Name.Annot, Subtype=Name(f"/{kind}"), Rect=Array(box))])

    return change


def group(pdf: Any) -> None:
    page(pdf)["/Group"] = Dictionary(S=Name.Transparency, CS=Name.DeviceCMYK)


def lab(pdf: Any) -> None:
    page(pdf).Resources["/ColorSpace"] = Dictionary(
        C1=Array([Name.Lab, Dictionary(WhitePoint=Array([1, 1, 1]))])
    )


def spot_of_rgb(pdf: Any) -> None:
    spot = Array([Name.Separation, Name("/Gold"), Name.DeviceRGB, pdf.make_stream(b"{pop 1 1 0}")])
    page(pdf).Resources["/ColorSpace"] = Dictionary(C1=spot)


def attached(pdf: Any) -> None:
    pdf.attachments["kit.yaml"] = b"title: Low Tide"


def packed(by: str) -> Callable[[Any], None]:
    def change(pdf: Any) -> None:
        stream = pdf.make_stream(b"")
        stream.write(b"\x80\x0b\x60\x50\x22\x0c\x0c\x85\x01", filter=Name(f"/{by}"))
        page(pdf).Resources.XObject["/More"] = stream

    return change


def box(name: str, *edges: float) -> Callable[[Any], None]:
    return put(page, f"/{name}", Array(list(edges)))


def info(pdf: Any) -> Any:
    return pdf.trailer.Info


def root(pdf: Any) -> Any:
    return pdf.Root


@dataclass(frozen=True)
class Fault:
    clause: Clause
    change: Callable[[Any], None]


FAULTS = {
    "another version": Fault(Clause.IDENTITY, put(info, "/GTS_PDFXVersion", "PDF/X-3:2003")),
    "no version": Fault(Clause.IDENTITY, drop(info, "/GTS_PDFXVersion")),
    "no title": Fault(Clause.IDENTITY, put(info, "/Title", " ")),
    "no day of making": Fault(Clause.IDENTITY, drop(info, "/CreationDate")),
    "a day that is none": Fault(Clause.IDENTITY, put(info, "/ModDate", "yesterday")),
    "layers": Fault(Clause.HEADER, put(root, "/OCProperties", Dictionary())),
    "a later version in the catalogue": Fault(Clause.HEADER, put(root, "/Version", Name("/1.6"))),
    "JPEG 2000": Fault(Clause.HEADER, packed("JPXDecode")),
    "no output intent": Fault(Clause.OUTPUT_INTENT, drop(root, "/OutputIntents")),
    "two output intents": Fault(Clause.OUTPUT_INTENT, second_intent),
    "a condition that is not registered": Fault(
        Clause.OUTPUT_INTENT, put(intent, "/OutputConditionIdentifier", "Press 4")
    ),
    "no condition": Fault(Clause.OUTPUT_INTENT, drop(intent, "/OutputConditionIdentifier")),
    "no Info of the condition": Fault(Clause.OUTPUT_INTENT, drop(intent, "/Info")),
    "no registry": Fault(Clause.OUTPUT_INTENT, drop(intent, "/RegistryName")),
    "a typeface without its file": Fault(Clause.FONTS, without_face),
    "a standard typeface": Fault(Clause.FONTS, standard_face),
    "LZW": Fault(Clause.COMPRESSION, packed("LZWDecode")),
    "JBIG2": Fault(Clause.COMPRESSION, packed("JBIG2Decode")),
    "no Trapped": Fault(Clause.TRAPPED, drop(info, "/Trapped")),
    "Trapped as a text": Fault(Clause.TRAPPED, put(info, "/Trapped", "False")),
    "Trapped unknown": Fault(Clause.TRAPPED, put(info, "/Trapped", Name.Unknown)),
    "no TrimBox": Fault(Clause.BOXES, drop(page, "/TrimBox")),
    "a TrimBox and an ArtBox": Fault(Clause.BOXES, box("ArtBox", 40, 40, 400, 600)),
    "a TrimBox beyond the BleedBox": Fault(Clause.BOXES, box("BleedBox", 40, 40, 400, 600)),
    "a TrimBox beyond the CropBox": Fault(Clause.BOXES, box("CropBox", 40, 40, 400, 600)),
    "a BleedBox beyond the MediaBox": Fault(Clause.BOXES, box("BleedBox", -5, -5, 900, 900)),
    "PostScript": Fault(Clause.POSTSCRIPT, add_thing(Type=Name.XObject, Subtype=Name.PS)),
    "a note on the page": Fault(Clause.ANNOTATIONS, note("Text", [100, 100, 120, 120])),
    "a link on the page": Fault(Clause.ANNOTATIONS, note("Link", [10, 10, 220, 120])),
    "ink that is seen through": Fault(Clause.TRANSPARENCY, add_state(ca=0.5)),
    "lines that are seen through": Fault(Clause.TRANSPARENCY, add_state(CA=0.5)),
    "a blend": Fault(Clause.TRANSPARENCY, add_state(BM=Name.Multiply)),
    "a soft mask": Fault(Clause.TRANSPARENCY, add_state(SMask=Dictionary(S=Name.Alpha))),
    "a soft mask of a picture": Fault(Clause.TRANSPARENCY, picture_with_mask),
    "a transparency group": Fault(Clause.TRANSPARENCY, group),
    "JavaScript": Fault(
        Clause.ACTIONS, put(root, "/OpenAction", Dictionary(S=Name.JavaScript, JS="app.beep()"))
    ),
    "an action of a page": Fault(Clause.ACTIONS, put(page, "/AA", Dictionary())),
    "a colour in RGB": Fault(Clause.COLOUR, add_code("1 0 0 rg 0 0 9 9 re f")),
    "a line in RGB": Fault(Clause.COLOUR, add_code("1 0 0 RG 0 0 m 9 9 l S")),
    "a picture in RGB": Fault(Clause.COLOUR, picture_in_rgb),
    "a space in Lab": Fault(Clause.COLOUR, lab),
    "a spot colour of RGB": Fault(Clause.COLOUR, spot_of_rgb),
    "the space of RGB": Fault(Clause.COLOUR, add_code("/DeviceRGB cs 1 0 0 sc 0 0 9 9 re f")),
    "a transfer curve": Fault(Clause.TRANSFER, add_state(TR=Name("/Curve"))),
    "a second transfer curve": Fault(Clause.TRANSFER, add_state(TR2=Name("/Curve"))),
    "a halftone by name": Fault(
        Clause.HALFTONE, add_state(HT=Dictionary(HalftoneType=1, HalftoneName="Fine"))
    ),
    "a halftone's phase": Fault(Clause.HALFTONE, add_state(HTP=Array([0, 0]))),
    "OPI": Fault(Clause.OPI, add_thing(Type=Name.XObject, Subtype=Name.Form, OPI=Dictionary())),
    "an attached file": Fault(Clause.FILES, attached),
    "content in another file": Fault(Clause.FILES, add_thing(F="elsewhere.bin")),
    "too much ink of a surface": Fault(Clause.INK, add_code("/MarksOut gs 1 1 0.1 0 k 0 0 9 9 re f")),
    "too much ink of a line": Fault(Clause.INK, add_code("/MarksOut gs 1 1 1 1 K 0 0 m 9 9 l S")),
    "too much ink of a picture": Fault(Clause.INK, picture_in_full_ink),
    "coloured letters": Fault(Clause.TEXT, add_code("/MarksOut gs 1 0 0 0 k BT (a) Tj ET")),
    "letters of a grey": Fault(Clause.TEXT, add_code("/MarksOut gs 0 0 0 0.5 k BT [(a)] TJ ET")),
    "letters outlined in a colour": Fault(Clause.TEXT, add_code("1 0 0 0 K BT 1 Tr (a) Tj ET")),
    "black letters that knock out": Fault(Clause.OVERPRINT, add_code("/MarksOut gs 0 0 0 1 k BT (a) Tj ET")),
    "a black line that knocks out": Fault(Clause.OVERPRINT, add_code("/MarksOut gs 0 0 0 1 K 0 0 m 9 9 l S")),
    "white that overprints": Fault(Clause.OVERPRINT, add_code("/MarksOver gs 0 0 0 0 k 0 0 9 9 re f")),
    "a colour that overprints": Fault(Clause.OVERPRINT, add_code("/MarksOver gs 1 0 0 0 k 0 0 9 9 re f")),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_found_and_nothing_else(name: str) -> None:
    fault = FAULTS[name]
    assert found_in(spoiled(fault.change)) == {fault.clause}


def test_a_file_of_a_later_kind_is_found() -> None:
    later = spoiled(unchanged, force_version="1.5", object_stream_mode=pikepdf.ObjectStreamMode.generate)
    told = [breach.found for breach in pdfx_breaches(later, LIMIT)]
    assert any("header" in each for each in told)
    assert {each for each in told if "stream" in each} == {
        "a stream of the type ObjStm",
        "a stream of the type XRef",
    }
    assert found_in(later) == {Clause.HEADER}


def test_an_encrypted_file_is_found() -> None:
    locks = pikepdf.Encryption(owner="a", user="", R=3, aes=False, metadata=False)
    assert Clause.ENCRYPTION in found_in(spoiled(unchanged, encryption=locks))
    shut = pikepdf.Encryption(owner="a", user="b", R=3, aes=False, metadata=False)
    assert found_in(spoiled(unchanged, encryption=shut)) == {Clause.ENCRYPTION}


def test_a_file_without_an_id_is_found() -> None:
    good = small_pages()
    at = good.rindex(b"/ID [")
    assert found_in(good[:at] + b"/IX [" + good[at + 5 :]) == {Clause.FILE_ID}


@pytest.mark.parametrize("rubbish", [b"", b"no PDF", b"%PDF-1.4\n%%EOF"])
def test_what_is_no_pdf_is_a_breach_and_no_error(rubbish: bytes) -> None:
    assert found_in(rubbish) == {Clause.READABLE}


@pytest.mark.parametrize("code", ["Do", "/Missing Do", "/Missing gs", "(a) Do"])
def test_content_that_says_too_little_is_a_breach_and_no_error(code: str) -> None:
    assert Clause.READABLE in found_in(spoiled(add_code(code)))


def test_every_clause_has_a_fault() -> None:
    by_hand = {Clause.READABLE, Clause.ENCRYPTION, Clause.FILE_ID}
    assert {fault.clause for fault in FAULTS.values()} | by_hand == set(Clause)


def test_a_form_is_looked_into_with_the_state_that_it_is_used_in() -> None:
    """A form that sets no colour takes that of the page: good after black, a breach after a colour."""

    def use(code: str) -> Callable[[Any], None]:
        def change(pdf: Any) -> None:
            form = pdf.make_stream(
                b"BT (a) Tj ET", Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 9, 9])
            )
            page(pdf).Resources.XObject["/More"] = form
            add_code(code)(pdf)

        return change

    black, blue = "/MarksOver gs 0 0 0 1 k /More Do", "/MarksOut gs 1 1 0 0 k /More Do"
    assert found_in(spoiled(use(black))) == set()
    assert found_in(spoiled(use(blue))) == {Clause.TEXT}
    assert found_in(spoiled(use(f"{black} {blue}"))) == {Clause.TEXT}


def test_a_form_that_shows_itself_ends() -> None:
    def change(pdf: Any) -> None:
        form = pdf.make_stream(b"/Again Do", Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 9, 9]))
        form["/Resources"] = Dictionary(XObject=Dictionary(Again=form))
        page(pdf).Resources.XObject["/More"] = form
        add_code("/More Do")(pdf)

    assert found_in(spoiled(change)) == {Clause.READABLE}


def test_overprinting_is_that_of_lines_and_of_fills_apart() -> None:
    """OP without op is that of both (ISO 32000-1, table 58, from memory); without OPM 1 nothing shows."""
    both = "/More gs 1 0 0 0 k 0 0 9 9 re f"

    def with_state(code: str, **entries: Any) -> Callable[[Any], None]:
        def change(pdf: Any) -> None:
            add_state(**entries)(pdf)
            add_code(code)(pdf)

        return change

    assert found_in(spoiled(with_state(both, OP=True, OPM=1))) == {Clause.OVERPRINT}
    assert found_in(spoiled(with_state(both, OP=True, op=False, OPM=1))) == set()
    without_mode = "/More gs 0 0 0 1 k 0 0 9 9 re f"
    assert found_in(spoiled(with_state(without_mode, OP=True, op=True))) == {Clause.OVERPRINT}


def test_a_note_outside_the_bleed_is_allowed() -> None:
    assert found_in(spoiled(note("Text", [0, 0, 5, 5]))) == set()


def test_a_breach_says_where_and_what() -> None:
    breach = Breach(Clause.FONTS, 3, "Helvetica without its file")
    assert breach_text(breach) == "page 3: 6.3 embedded typefaces: found Helvetica without its file"
