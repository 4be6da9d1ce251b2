"""A canvas for what reportlab has no method for: patterns (ISO 32000-1, 8.7.3), and pictures of one bit."""

from __future__ import annotations

from typing import Any

from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas

from booklet.drawing.shapes.affine import Affine

# The colour space of patterns (ISO 32000-1, 8.6.6.2).
_SPACE = "Pattern"


class Bits(ImageReader):  # type: ignore[misc]
    """A picture of one bit to a pixel, which goes into the file as it is."""

    def getRGBData(self) -> bytes:  # noqa: N802 (the canvas asks for it by this name)
        """Its rows, eight pixels to a byte, white is 1."""
        self._dataA = None
        self.mode = "L"
        rows: bytes = self._image.tobytes()
        return rows


class PatternCanvas(Canvas):  # type: ignore[misc]  # reportlab carries no types
    """A canvas whose pages and forms name the patterns that they fill with."""

    _code: list[str]
    _doc: Any
    _formsinuse: list[str]

    def __init__(self, *args: Any, **options: Any) -> None:
        # The patterns of the document, and the names of those in the page and in each form that is open.
        self._patterns: dict[str, Any] = {}
        self._named: list[set[str]] = [set()]
        super().__init__(*args, **options)

    def has_pattern(self, name: str) -> bool:
        """Whether a pattern of this name is known."""
        return name in self._patterns

    def add_pattern(self, name: str, side: int, drawn: str, matrix: Affine) -> None:
        """Make a pattern known: a square cell of a side, drawn by operators.

        `matrix` leads from the cell to the page or form in whose operators it is named.
        """
        cell = pdfdoc.PDFStream(content=drawn, filters=[pdfdoc.PDFZCompress])
        cell.dictionary.dict |= {
            "Type": pdfdoc.PDFName("Pattern"),
            "PatternType": 1,
            "PaintType": 1,
            "TilingType": 1,
            "BBox": pdfdoc.PDFArray([0, 0, side, side]),
            "XStep": side,
            "YStep": side,
            "Resources": pdfdoc.PDFDictionary({}),
            "Matrix": pdfdoc.PDFArray(list(matrix)),
        }
        self._patterns[name] = self._doc.Reference(cell, f"pattern-{name}")

    def fill_with(self, name: str) -> None:
        """Fill with a known pattern from now on."""
        self._named[-1].add(name)
        self._code += [f"/{_SPACE} cs", f"/{name} scn"]

    def drawImage(self, image: Any, *args: Any, **options: Any) -> tuple[int, int]:  # noqa: N802
        """Draw a picture; returns its size in pixels."""
        size: tuple[int, int] = super().drawImage(image, *args, **options)
        if isinstance(image, Bits):
            name = self._doc.getXObjectName(self._formsinuse[-1])
            self._doc.idToObject[name].bitsPerComponent = 1
        return size

    def beginForm(self, *args: Any, **options: Any) -> None:  # noqa: N802 (a method of the canvas)
        """Begin a form, which names patterns of its own."""
        self._named.append(set())
        super().beginForm(*args, **options)

    def endForm(self, **attributes: Any) -> None:  # noqa: N802 (a method of the canvas)
        """End a form."""
        super().endForm(**attributes)
        self._named.pop()

    def showPage(self) -> None:  # noqa: N802 (a method of the canvas)
        """End a page."""
        super().showPage()
        self._named[-1].clear()

    def _setXObjects(self, thing: Any) -> None:  # noqa: N802 (the canvas asks for it by this name)
        """Name what a page or form uses: its forms, as reportlab does, and its patterns."""
        super()._setXObjects(thing)
        if self._named[-1] and isinstance(thing, pdfdoc.PDFPage | pdfdoc.PDFFormXObject):
            named = {name: self._patterns[name] for name in sorted(self._named[-1])}
            resources = pdfdoc.PDFResourceDictionary(Pattern=named)
            resources.basicFonts()
            resources.allProcs()
            if thing.XObjects:
                resources.XObject = thing.XObjects
            thing.Resources = resources
