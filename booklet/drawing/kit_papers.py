"""The kit's papers as symbols: each face of a sheet drawn once at full size, then used wherever it shows."""

from __future__ import annotations

from pathlib import Path

from booklet.drawing.figure import Symbol
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.measure.length import Size


class KitPapers:
    """Finds or makes the symbol of a face; two sheets of one paper and size share it.

    A symbol lies in points at full size, as that face is seen upright: the back as when the sheet is turned
    over like a page.
    """

    def __init__(self, kit: Kit, folder: Path) -> None:
        self._kit = kit
        self._folder = folder

    def sheet(self, index: int, face: Face) -> Symbol:
        """One face of a sheet of the kit, with its printed elements if it is a cut-apart sheet."""
        raise NotImplementedError

    def paper(self, paper: str, face: Face, size: Size) -> Symbol:
        """One face of a paper cut to a size: a ready-cut piece, a swatch."""
        raise NotImplementedError
