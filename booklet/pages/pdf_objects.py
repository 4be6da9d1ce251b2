"""Objects of a PDF for which reportlab has no words of its own."""

from __future__ import annotations

from typing import Any

from reportlab.pdfbase.pdfdoc import (
    BasicFonts,
    Destination,
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFObject,
    PDFObjectReference,
)


class PageLink(PDFObject):  # type: ignore[misc]  # reportlab carries no types
    """A rectangle of a page that leads to another one: a link annotation without a border.

    It stands in its page's list itself: a booklet has hundreds, and as objects of their own they would take
    twice the room (ISO 32000-1, 12.5.6.5; from memory).
    """

    def __init__(self, rect: tuple[float, float, float, float], goal: Destination) -> None:
        self._rect = rect
        self._goal = goal

    def format(self, document: Any) -> bytes:
        """The annotation as it stands in the file; sides to a tenth of a point."""
        sides = " ".join(f"{side:.1f}" for side in self._rect)
        head = f"<</Subtype/Link/Border[0 0 0]/Rect[{sides}]/Dest"
        goal: bytes = self._goal.format(document)
        return head.encode("ascii") + goal + b">>"


class TextString(PDFObject):  # type: ignore[misc]
    """A text in hexadecimal: in ASCII, or in UTF-16 where it has other letters (ISO 32000-1, 7.9.2.2)."""

    def __init__(self, text: str) -> None:
        self.data = text.encode("ascii") if text.isascii() else b"\xfe\xff" + text.encode("utf-16-be")

    def format(self, document: Any) -> bytes:  # noqa: ARG002 (reportlab calls it so)
        """The string as it stands in the file."""
        return b"<" + self.data.hex().encode("ascii") + b">"


class ByteString(PDFObject):  # type: ignore[misc]
    """Bytes as a string in hexadecimal."""

    def __init__(self, data: bytes) -> None:
        self._data = data

    def format(self, document: Any) -> bytes:  # noqa: ARG002
        """The string as it stands in the file."""
        return b"<" + self._data.hex().encode("ascii") + b">"


class RawStream(PDFObject):  # type: ignore[misc]
    """Bytes that go into the file as they are; an entry `Filter` says how they were packed before."""

    __RefOnly__ = 1  # a stream is an object of its own

    def __init__(self, data: bytes, **entries: Any) -> None:
        self._data = data
        self._entries = dictionary(**entries, Length=len(data))

    def format(self, document: Any) -> bytes:
        """The stream as it stands in the file."""
        head: bytes = self._entries.format(document)
        return head + b"\nstream\n" + self._data + b"\nendstream\n"


class PlainForm(PDFObject):  # type: ignore[misc]
    """Operators that are not packed, drawn within a box wherever a form is drawn; `used` are forms in it.

    A form of reportlab is put together of a dozen objects, which takes longer than to write its operators.
    """

    __RefOnly__ = 1  # a stream is an object of its own

    def __init__(self, box: tuple[float, float, float, float], operators: bytes, used: PDFDictionary) -> None:
        self._box, self._operators, self._used = box, operators, used

    def format(self, document: Any) -> bytes:
        """The form as it stands in the file (ISO 32000-1, table 95)."""
        sides = " ".join([f"{side:.4f}" for side in self._box])
        fonts, used = PDFObjectReference(BasicFonts).format(document), self._used.format(document)
        head = f"<</Type/XObject/Subtype/Form/BBox[{sides}]/Length {len(self._operators)}/Resources<</Font "
        parts = [head.encode("ascii"), fonts, b"/XObject ", used, b">>>>\nstream\n", self._operators]
        return b"".join([*parts, b"\nendstream\n"])


def dictionary(**entries: Any) -> PDFDictionary:
    """A dictionary of these entries."""
    return PDFDictionary(dict(entries))


def array(*items: Any) -> PDFArray:
    """An array of these items."""
    return PDFArray(list(items))


def name(*parts: str) -> PDFName:
    """A name; its parts, if there are several, stand between slashes, which are written as numbers."""
    return PDFName("#2F".join(parts))


def set_in_catalog(document: Any, **entries: Any) -> None:
    """Set entries of a document's catalogue, also such as reportlab does not know."""
    catalog = document.Catalog
    known = catalog.__NoDefault__
    catalog.__NoDefault__ = [*known, *(key for key in entries if key not in known)]
    for key, value in entries.items():
        setattr(catalog, key, value)
