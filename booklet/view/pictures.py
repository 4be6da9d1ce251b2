"""Pages as pictures: each written as a PDF of its own, known by its content, as wide as asked."""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping
from threading import Lock
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from booklet.measure.dataclass import dataclass
from booklet.pages.again import PageAlone

if TYPE_CHECKING:
    import numpy

    # Rows of red, green and blue.
    Pixels = numpy.ndarray[Any, Any]

Made = TypeVar("Made")
# Wider than a page is on any screen, in pixels.
MOST_WIDE = 4096
# How many bytes of pictures are kept: packed those of a booklet in some widths, bare those of the pages in
# view and near them.
_MOST_PACKED = _MOST_RENDERED = 64 << 20
# How many pixels wide a page is on which it is seen what has changed.
_COARSE = 320
# The PDF library must not be called by two threads at once (PDFium's own documentation).
_RENDERER = Lock()
# The PDF library rounds widths up, also those that are too wide by what a float has too much: it is asked for
# a picture that is narrower by this, in pixels.
_HAIR = 1e-6
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


@dataclass(frozen=True)
class Patch:
    """What of a page's picture is not as before: where, in pixels of a picture so wide, and a PNG of that."""

    before: str
    width: int
    box: tuple[int, int, int, int]
    png: bytes


class Pictures:
    """The pictures of the pages that are shown, each rendered once for a width."""

    def __init__(self) -> None:
        self._pages: Mapping[str, bytes] = {}
        self._rendered: _Kept[Pixels] = _Kept(_MOST_RENDERED, lambda rows: int(rows.nbytes))
        self._packed: _Kept[bytes] = _Kept(_MOST_PACKED, len)
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
        width = _within_most(width)
        with self._lock:
            known = self._packed.get((digest, width))
        rows = self._rows(digest, width) if known is None else None
        if rows is None:
            return known
        made = png_of(rows)
        with self._lock:
            self._packed.put((digest, width), made)
        return made

    def patch(self, before: str, now: str, width: int) -> Patch | None:
        """What a picture that a browser has lacks of the one that it is to have; None where that is unknown.

        It is sooner packed, sent and painted than the whole picture.
        """
        width = _within_most(width)
        with self._lock:
            old = self._rendered.get((before, width))
        new = self._rows(now, width)
        box = None if old is None or new is None else differing(old, new)
        if new is None or box is None:
            return None
        left, top, right, bottom = box
        return Patch(before, width, box, png_of(new[top:bottom, left:right]))

    def have_ready(self, digests: Iterable[str], width: int) -> None:
        """Have pages at hand that a browser shows, as many as are kept: a patch is what they lack.

        A picture that was packed is given away long after its pixels have made room for others.
        """
        width, held = _within_most(width), 0
        for digest in digests:
            rows = self._rows(digest, width)
            held += 0 if rows is None else int(rows.nbytes)
            if held > _MOST_RENDERED:
                return

    def _rows(self, digest: str, width: int) -> Pixels | None:
        with self._lock:
            known, pdf = self._rendered.get((digest, width)), self._pages.get(digest)
        if known is not None or pdf is None:
            return known
        made = pixels(pdf, width)
        with self._lock:
            self._rendered.put((digest, width), made)
        return made


def _within_most(width: int) -> int:
    """A width that is asked for, as far as any page is so wide."""
    return min(max(width, 1), MOST_WIDE)


class _Kept(Generic[Made]):
    """What was made of pages, by digest and width: up to so many bytes what was asked for last."""

    def __init__(self, most: int, size: Callable[[Made], int]) -> None:
        self._most, self._size, self._held = most, size, 0
        self._made: OrderedDict[tuple[str, int], Made] = OrderedDict()

    def get(self, key: tuple[str, int]) -> Made | None:
        """What was made, if it is there."""
        if key in self._made:
            self._made.move_to_end(key)
        return self._made.get(key)

    def put(self, key: tuple[str, int], made: Made) -> None:
        """Keep what was made, if it is not there."""
        if key in self._made:
            return
        self._made[key] = made
        self._held += self._size(made)
        while self._held > self._most and len(self._made) > 1:
            self._held -= self._size(self._made.popitem(last=False)[1])


def pixels(pdf: bytes, width: int) -> Pixels:
    """The one page of a PDF as rows of red, green and blue, so many pixels wide."""
    from pypdfium2 import PdfDocument

    with _RENDERER:
        document = PdfDocument(pdf)
        page = document[0]
        bitmap = page.render(scale=(width - _HAIR) / page.get_width(), rev_byteorder=True)
        # In memory of Python's own, which stays with the rows when the bitmap is closed.
        rows: Pixels = bitmap.to_numpy()
        bitmap.close()
        document.close()
    return rows


def png_of(rows: Pixels) -> bytes:
    """A PNG of rows of red, green and blue."""
    import numpy

    height, width, parts = rows.shape
    filtered = numpy.zeros((height, 1 + width * parts), numpy.uint8)
    filtered[:, 1:] = rows.reshape(height, width * parts)
    packer = zlib.compressobj(_LEVEL, zlib.DEFLATED, _WINDOW, _MEMORY)
    packed = packer.compress(filtered.data) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, _DEPTH, _RGB, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", packed), (b"IEND", b""))
    return _SIGNATURE + b"".join(_chunk(name, data) for name, data in chunks)


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def differing(before: Pixels, now: Pixels) -> tuple[int, int, int, int] | None:
    """Where two pictures differ: left, top, right, bottom; all over where sizes do, None for alike ones."""
    high, wide, parts = now.shape
    if before.shape != now.shape:
        return (0, 0, wide, high)
    # All parts of all pixels of a row at once, which takes a fifth of the time.
    differs = (before != now).reshape(high, wide * parts)
    down = differs.any(axis=1).nonzero()[0]
    if not len(down):
        return None
    top, bottom = int(down[0]), int(down[-1]) + 1
    across = differs[top:bottom].any(axis=0).reshape(wide, parts).any(axis=1).nonzero()[0]
    return (int(across[0]), top, int(across[-1]) + 1, bottom)


def changed_part(before: bytes, now: bytes) -> tuple[float, float, float, float] | None:
    """Where two PDFs of one page differ to the eye: left, top, right, bottom, in parts of the page.

    None where they look alike.
    """
    picture = pixels(now, _COARSE)
    box = differing(pixels(before, _COARSE), picture)
    if box is None:
        return None
    high, wide, _ = picture.shape
    left, top, right, bottom = box
    return (left / wide, top / high, right / wide, bottom / high)
