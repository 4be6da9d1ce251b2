"""A finished file held to PDF/X-1a:2003 (ISO 15930-4), and to what our pages promise a press.

Written from public descriptions of the standard, apart from what writes the files: what one gets wrong the
other finds.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from io import BytesIO
from typing import Any

import pikepdf

from booklet.measure.exact import Fraction
from booklet.proof.press_clauses import Breach, Clause
from booklet.proof.press_inks import Found, InkReader, space_breaches

_HEADER = re.compile(rb"%PDF-1\.[0-4][\r\n]")
_LATER_STREAMS = re.compile(rb"/Type\s*/(ObjStm|XRef)\b")
_DATE = re.compile(r"D:\d{4}(\d{2}(\d{2}(\d{2}(\d{2}(\d{2})?)?)?)?)?(Z|[+-]\d{2}'\d{2}'?)?")
_VERSION = "PDF/X-1a:2003"
# What is registered as characterised (from memory).
_REGISTERED = frozenset(["FOGRA39", "FOGRA51", "FOGRA52", "CGATS TR 001", "CGATS TR 006", "CGATS21-2-CRPC6"])
_REGISTRY = "http://www.color.org"
_NAMED_ACTIONS = frozenset(["/JavaScript", "/Launch", "/URI", "/GoTo", "/GoToR", "/Named", "/SubmitForm"])
_PACKINGS = {
    "/LZWDecode": Clause.COMPRESSION,
    "/LZW": Clause.COMPRESSION,
    "/JBIG2Decode": Clause.COMPRESSION,
    "/JPXDecode": Clause.HEADER,
    "/Crypt": Clause.ENCRYPTION,
}
_PLAIN_BLENDS = frozenset(["/Normal", "/Compatible"])
# How far a box may lie outside another, in points: what rounding does.
_ROUNDING = 0.01
# Marks that the standard allows as annotations.
_MARKS = frozenset(["/TrapNet", "/PrinterMark"])

# What is raised where an object of a file, or an operand, is missing or another than it is to be.
_NO_SUCH_OBJECT = (AttributeError, TypeError, ValueError, LookupError, RuntimeError)

_Box = tuple[float, float, float, float]


def pdfx_breaches(data: bytes, ink_limit: Fraction) -> tuple[Breach, ...]:
    """All that a file breaks, each thing once; nothing for a good one.  `ink_limit` is in percent.

    Reads a file of any origin without an error.
    """
    try:
        with pikepdf.open(BytesIO(data)) as pdf:
            return tuple(dict.fromkeys(_breaches(pdf, data, ink_limit)))
    except pikepdf.PasswordError:
        return (Breach(Clause.ENCRYPTION, None, "a file that asks for a password"),)
    except (pikepdf.PdfError, *_NO_SUCH_OBJECT) as error:
        return (Breach(Clause.READABLE, None, f"a file that cannot be read: {error}"),)


def _breaches(pdf: pikepdf.Pdf, data: bytes, ink_limit: Fraction) -> Iterator[Breach]:
    for look in (_header, _encryption, _identity, _trailer, _intent, _catalogue, _objects):
        for clause, found in look(pdf, data):
            yield Breach(clause, None, found)
    reader = InkReader(ink_limit)
    for number, page in enumerate(pdf.pages, start=1):
        for clause, found in (*_boxes(page.obj), *_annotations(page.obj), *reader.page(page.obj)):
            yield Breach(clause, number, found)


# The file.


def _header(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:
    if not _HEADER.match(data):
        yield Clause.HEADER, f"the header {data[:8]!r}"
    if "/Version" in pdf.Root and str(pdf.Root.Version) not in {f"/1.{minor}" for minor in range(5)}:
        yield Clause.HEADER, f"the version {pdf.Root.Version}"
    for kind in sorted({match[1].decode() for match in _LATER_STREAMS.finditer(data)}):
        yield Clause.HEADER, f"a stream of the type {kind}"
    if "/OCProperties" in pdf.Root:
        yield Clause.HEADER, "layers"


def _encryption(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:  # noqa: ARG001
    if pdf.is_encrypted:
        yield Clause.ENCRYPTION, "an encrypted file"


def _identity(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:  # noqa: ARG001
    info = pdf.trailer.get("/Info", pikepdf.Dictionary())
    version = str(info.get("/GTS_PDFXVersion", ""))
    if version != _VERSION:
        yield Clause.IDENTITY, f"the version {version!r}"
    if not str(info.get("/Title", "")).strip():
        yield Clause.IDENTITY, "no title"
    for key in ("/CreationDate", "/ModDate"):
        if not _DATE.fullmatch(str(info.get(key, ""))):
            yield Clause.IDENTITY, f"{key[1:]} {str(info.get(key, ''))!r}"
    trapped = info.get("/Trapped")
    if not isinstance(trapped, pikepdf.Name) or str(trapped) not in ("/True", "/False"):
        yield Clause.TRAPPED, f"Trapped {trapped!r}" if trapped is not None else "no Trapped"


def _trailer(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:  # noqa: ARG001
    if len(pdf.trailer.get("/ID", [])) != 2:
        yield Clause.FILE_ID, "no ID"


def _intent(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:  # noqa: ARG001
    intents = [each for each in pdf.Root.get("/OutputIntents", []) if each.get("/S") == "/GTS_PDFX"]
    if len(intents) != 1:
        yield Clause.OUTPUT_INTENT, f"{len(intents)} output intents for PDF/X"
        return
    (intent,) = intents
    identifier = str(intent.get("/OutputConditionIdentifier", ""))
    if not identifier:
        yield Clause.OUTPUT_INTENT, "an output intent without a condition"
    if not str(intent.get("/Info", "")).strip():
        yield Clause.OUTPUT_INTENT, "an output intent without Info"
    if "/DestOutputProfile" not in intent:
        if identifier not in _REGISTERED:
            yield (
                Clause.OUTPUT_INTENT,
                f"no profile, and the condition {identifier!r}, which is not registered",
            )
        if str(intent.get("/RegistryName", "")) != _REGISTRY:
            yield Clause.OUTPUT_INTENT, "no profile, and no registry of its condition"


def _catalogue(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:  # noqa: ARG001
    for key in ("/OpenAction", "/AA"):
        if key in pdf.Root:
            yield Clause.ACTIONS, f"{key[1:]} of the document"
    names = pdf.Root.get("/Names", pikepdf.Dictionary())
    if "/JavaScript" in names:
        yield Clause.ACTIONS, "JavaScript of the document"
    if "/EmbeddedFiles" in names:
        yield Clause.FILES, "an attached file"


# Every object.


def _objects(pdf: pikepdf.Pdf, data: bytes) -> Iterator[Found]:  # noqa: ARG001
    for each in pdf.objects:
        yield from _object(each)


def _object(each: Any) -> Iterator[Found]:
    """A thing of the file and what lies directly in it; what it only refers to is met by itself."""
    if isinstance(each, pikepdf.Array):
        inner = [part for part in each if isinstance(part, pikepdf.Object)]
    elif isinstance(each, pikepdf.Dictionary | pikepdf.Stream):
        for look in _LOOKS:
            yield from look(each)
        inner = [part for _, part in each.items() if isinstance(part, pikepdf.Object)]
    else:
        return
    for part in inner:
        if not part.is_indirect:
            yield from _object(part)


def _packing(each: Any) -> Iterator[Found]:
    if isinstance(each, pikepdf.Stream):
        packings: Any = each.get("/Filter", pikepdf.Array())
        for packing in packings if isinstance(packings, pikepdf.Array) else [packings]:
            if clause := _PACKINGS.get(str(packing)):
                yield clause, f"a stream packed by {packing}"


def _transparency(each: Any) -> Iterator[Found]:
    mask = each.get("/SMask")
    if mask is not None and str(mask) != "/None":
        yield Clause.TRANSPARENCY, "a soft mask"
    if each.get("/S") == "/Transparency":
        yield Clause.TRANSPARENCY, "a transparency group"
    if not _is_state(each):
        return
    for key in ("/CA", "/ca"):
        if key in each and float(each[key]) != 1.0:
            yield Clause.TRANSPARENCY, f"{key[1:]} {float(each[key]):g}"
    blend = each.get("/BM", pikepdf.Name.Normal)
    if str(blend) not in _PLAIN_BLENDS:
        yield Clause.TRANSPARENCY, f"the blend mode {blend}"


_STATE_KEYS = (
    "/OP",
    "/op",
    "/OPM",
    "/CA",
    "/ca",
    "/BM",
    "/SMask",
    "/TR",
    "/TR2",
    "/HT",
    "/HTP",
    "/LW",
    "/AIS",
)


def _is_state(each: Any) -> bool:
    """Whether it is a graphics state; one need not say so."""
    if each.get("/Type") == "/ExtGState":
        return True
    return "/Type" not in each and "/Subtype" not in each and any(key in each for key in _STATE_KEYS)


def _state_of_old(each: Any) -> Iterator[Found]:
    if not _is_state(each):
        return
    if "/TR" in each and str(each.TR) != "/Identity":
        yield Clause.TRANSFER, "a transfer curve"
    if "/TR2" in each and str(each.TR2) != "/Default":
        yield Clause.TRANSFER, "a transfer curve"
    if "/HTP" in each:
        yield Clause.HALFTONE, "a halftone's phase"
    halftone = each.get("/HT")
    if isinstance(halftone, pikepdf.Dictionary | pikepdf.Stream) and "/HalftoneName" in halftone:
        yield Clause.HALFTONE, f"the halftone {halftone.HalftoneName}"


def _postscript(each: Any) -> Iterator[Found]:
    is_old = each.get("/Subtype") == "/PS" or each.get("/Subtype2") == "/PS" or "/PS" in each
    if is_old and (each.get("/Type") in (None, "/XObject")):
        yield Clause.POSTSCRIPT, "PostScript"


def _opi(each: Any) -> Iterator[Found]:
    if "/OPI" in each:
        yield Clause.OPI, "a picture to be exchanged by OPI"


def _action(each: Any) -> Iterator[Found]:
    if str(each.get("/S", "")) in _NAMED_ACTIONS:
        yield Clause.ACTIONS, f"the action {each.S}"
    if each.get("/Type") == "/Page" and "/AA" in each:
        yield Clause.ACTIONS, "AA of a page"


def _other_files(each: Any) -> Iterator[Found]:
    is_outside = isinstance(each, pikepdf.Stream) and "/F" in each
    if is_outside or "/EF" in each or each.get("/Type") in ("/Filespec", "/F"):
        yield Clause.FILES, "a file specification"


def _font(each: Any) -> Iterator[Found]:
    if each.get("/Type") != "/Font" or each.get("/Subtype") in ("/Type0", "/Type3"):
        return
    described = each.get("/FontDescriptor", pikepdf.Dictionary())
    if not any(key in described for key in ("/FontFile", "/FontFile2", "/FontFile3")):
        yield Clause.FONTS, f"{str(each.get('/BaseFont', 'a typeface'))[1:]} without its file"


def _spaces(each: Any) -> Iterator[Found]:
    """Colour spaces of pictures and shadings, and those that a page has at hand."""
    space = each.get("/ColorSpace")
    if space is None:
        return
    if isinstance(space, pikepdf.Dictionary):
        for _, one in list(space.items()):
            yield from space_breaches(one)
    else:
        yield from space_breaches(space)


_LOOKS: tuple[Callable[[Any], Iterator[Found]], ...] = (
    _packing,
    _transparency,
    _state_of_old,
    _postscript,
    _opi,
    _action,
    _other_files,
    _font,
    _spaces,
)


# The pages.


def _boxes(page: Any) -> Iterator[Found]:
    boxes = {name: _box(page, f"/{name}") for name in ("TrimBox", "ArtBox", "BleedBox", "CropBox")}
    media = _inherited_box(page)
    there = {name: box for name, box in boxes.items() if box is not None}
    if ("TrimBox" in there) is ("ArtBox" in there):
        yield Clause.BOXES, "both a TrimBox and an ArtBox" if "TrimBox" in there else "no TrimBox"
        return
    if media is None:
        yield Clause.BOXES, "no MediaBox"
        return
    inner = "TrimBox" if "TrimBox" in there else "ArtBox"
    for outer in ("BleedBox", "CropBox"):
        if outer in there and not _is_within(there[inner], there[outer]):
            yield Clause.BOXES, f"a {inner} that is not within its {outer}"
    for name, box in there.items():
        if not _is_within(box, media):
            yield Clause.BOXES, f"a {name} that is not within its MediaBox"


def _box(page: Any, key: str) -> _Box | None:
    if key not in page:
        return None
    left, bottom, right, top = (float(edge) for edge in page[key])
    return min(left, right), min(bottom, top), max(left, right), max(bottom, top)


def _inherited_box(page: Any) -> _Box | None:
    """The MediaBox, which may be that of a parent."""
    node, most = page, 100
    while "/MediaBox" not in node and "/Parent" in node and most:
        node, most = node.Parent, most - 1
    return _box(node, "/MediaBox")


def _is_within(box: _Box, outer: _Box) -> bool:
    left, bottom, right, top = box
    return (
        left >= outer[0] - _ROUNDING
        and bottom >= outer[1] - _ROUNDING
        and right <= outer[2] + _ROUNDING
        and top <= outer[3] + _ROUNDING
    )


def _annotations(page: Any) -> Iterator[Found]:
    bleed = _box(page, "/BleedBox") or _box(page, "/TrimBox") or _inherited_box(page)
    for note in page.get("/Annots", []):
        place = _box(note, "/Rect")
        is_mark = str(note.get("/Subtype", "")) in _MARKS
        if not is_mark and bleed is not None and place is not None and _meets(place, bleed):
            yield Clause.ANNOTATIONS, f"an annotation of the kind {note.get('/Subtype')}"


def _meets(one: _Box, other: _Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
