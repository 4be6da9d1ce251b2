"""Pages as pictures: each written as a PDF of its own, known by its content, as wide as asked."""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections import OrderedDict
from collections.abc import Mapping
from threading import Lock
from typing import TYPE_CHECKING

from booklet.measure.dataclass import dataclass
from booklet.pages.again import PageAlone

if TYPE_CHECKING:
    import numpy

# Wider than a page is on any screen, in pixels.
MOST_WIDE = 4096
# How many pictures are kept: those of the booklet in one width, and of the pages in view in another.
_KEPT = 96
# The PDF library must not be called by two threads at once (PDFium's own documentation).
_RENDERER = Lock()
# PNG (ISO/IEC 15948): its signature, eight bits for each of red, green and blue, rows without a filter.
_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_RGB, _DEPTH = 2, 8
# Flat colours pack well at the lowest level; a filter and higher levels take longer than they save on a
# way that does not leave the computer (measured: 4 ms against 12 for a page 560 pixels wide).
_LEVEL, _WINDOW, _MEMORY = 1, 15, 9


@dataclass(frozen=True, eq=False)
class WrittenPage:
    """A page by its number, written alone; the digest of its PDF stands for all that is seen."""

    number: int
    alone: PageAlone
    digest: str

    @property
    def pdf(self) -> bytes:
        """The page as a PDF of its own."""
        return self.alone.pdf


def written_page(number: int, alone: PageAlone) -> WrittenPage:
    """A page that was written alone."""
    return WrittenPage(number, alone, hashlib.sha256(alone.pdf).hexdigest()[:24])


class Pictures:
    """The pictures of the pages that are shown, each rendered once for a width."""

    def __init__(self) -> None:
        self._pages: Mapping[str, bytes] = {}
        self._kept: OrderedDict[tuple[str, int], bytes] = OrderedDict()
        self._lock = Lock()

    def hold(self, pages: Mapping[str, bytes]) -> None:
        """Take the PDFs of all pages that may be asked for, by their digests."""
        with self._lock:
            self._pages = dict(pages)

    def add(self, page: WrittenPage) -> None:
        """Take one more page."""
        with self._lock:
            self._pages = {**self._pages, page.digest: page.pdf}

    def png(self, digest: str, width: int) -> bytes | None:
        """A page as a PNG so many pixels wide; None for one that is not, or no longer, shown."""
        key = (digest, min(max(width, 1), MOST_WIDE))
        with self._lock:
            if (known := self._kept.get(key)) is not None:
                self._kept.move_to_end(key)
                return known
            pdf = self._pages.get(digest)
        if pdf is None:
            return None
        made = png_of(pixels(pdf, key[1]))
        with self._lock:
            self._kept[key] = made
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
        return made


def pixels(pdf: bytes, width: int) -> numpy.ndarray:
    """The one page of a PDF as rows of red, green and blue, so many pixels wide."""
    from pypdfium2 import PdfDocument

    with _RENDERER:
        document = PdfDocument(pdf)
        page = document[0]
        bitmap = page.render(scale=width / page.get_width(), rev_byteorder=True)
        rows: numpy.ndarray = bitmap.to_numpy().copy()
        bitmap.close()
        document.close()
    return rows


def png_of(rows: numpy.ndarray) -> bytes:
    """A PNG of rows of red, green and blue."""
    import numpy

    height, width, parts = rows.shape
    filtered = numpy.zeros((height, 1 + width * parts), numpy.uint8)
    filtered[:, 1:] = rows.reshape(height, width * parts)
    packer = zlib.compressobj(_LEVEL, zlib.DEFLATED, _WINDOW, _MEMORY)
    packed = packer.compress(filtered.tobytes()) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, _DEPTH, _RGB, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", packed), (b"IEND", b""))
    return _SIGNATURE + b"".join(_chunk(name, data) for name, data in chunks)


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def changed_box(before: bytes, now: bytes, width: int = 320) -> tuple[float, float, float, float] | None:
    """Where two PDFs of one page differ to the eye: left, top, right, bottom, in parts of the page.

    None where they look alike.
    """
    one, other = pixels(before, width), pixels(now, width)
    if one.shape != other.shape:
        return (0.0, 0.0, 1.0, 1.0)
    differs = (one != other).any(axis=2)
    down, across = differs.any(axis=1).nonzero()[0], differs.any(axis=0).nonzero()[0]
    if not len(down):
        return None
    high, wide = differs.shape
    return (across[0] / wide, down[0] / high, (across[-1] + 1) / wide, (down[-1] + 1) / high)
