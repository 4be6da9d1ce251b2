"""An image read to its end without being held: whether a decoder would be content with it."""

from __future__ import annotations

import zlib
from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

# How many bytes are unpacked at a time.
_AT_ONCE = 1 << 18
# Before the chunks of a PNG file: its signature; about the data of each: length, name and sum.
_SIGNATURE, _BEFORE, _AFTER = 8, 8, 4
# Channels by colour type, and the passes of an interlaced file, each by its first column and row and the
# steps to the next ones (PNG, third edition, sections 11.2.1 and 8.1, from memory).
_CHANNELS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}
_WHOLE = ((0, 0, 1, 1),)
_PASSES = (
    (0, 0, 8, 8),
    (4, 0, 8, 8),
    (0, 4, 4, 8),
    (2, 0, 4, 4),
    (0, 2, 2, 4),
    (1, 0, 2, 2),
    (0, 1, 1, 2),
)
# Filters bear the numbers from 0 to this (section 9.2).
_LAST_FILTER = 4
# A JPEG is decoded in every detail of its stream and an eighth of its size.
_EIGHTH = 8


def look_through(image: Image, data: bytes) -> None:
    """Read an opened image, of which `data` is the file, to its end.

    Raises what a decoder would raise: OSError for a file that was cut short or is damaged.
    """
    if image.format != "PNG":
        image.draft(None, (max(image.width // _EIGHTH, 1), max(image.height // _EIGHTH, 1)))
        image.load()
        return
    _check_rows(data)


def notes_of_png(data: bytes) -> bytes:
    """A PNG file of one grey pixel with all that this one says beside its pixels.

    A decoder looks for notes behind the pixels too, and would unpack these.
    """
    one_pixel = {b"IHDR": (b"\0\0\0\1" * 2) + b"\x08\0\0\0\0", b"IDAT": zlib.compress(b"\0\0")}
    parts = [data[:_SIGNATURE]]
    for name, body in _chunks(data):
        if name in one_pixel:
            body = one_pixel.pop(name)
        elif name in (b"IDAT", b"PLTE", b"tRNS"):
            continue
        sum_of_it = zlib.crc32(body, zlib.crc32(name)).to_bytes(_AFTER, "big")
        parts += [len(body).to_bytes(4, "big"), name, body, sum_of_it]
    return b"".join(parts)


def _check_rows(data: bytes) -> None:
    """Unpack the pixels of a PNG file: each row says first how it is filtered, and the last is whole."""
    starts = _row_starts(data)
    start, at = next(starts), 0
    for block in _unpacked(data):
        while start is not None and start < at + len(block):
            if block[start - at] > _LAST_FILTER:
                raise OSError("broken PNG file")
            start = next(starts)
        at += len(block)
    if start is not None or at < _size_of_rows(data):
        raise OSError("image file is truncated")


def _unpacked(data: bytes) -> Iterator[bytes]:
    """What the pixels of a PNG file unpack to, some at a time."""
    unpacker = zlib.decompressobj()
    for name, body in _chunks(data):
        waiting = body if name == b"IDAT" else b""
        while waiting and not unpacker.eof:
            try:
                yield unpacker.decompress(waiting, _AT_ONCE)
            except zlib.error as error:
                raise OSError("broken PNG file") from error
            waiting = unpacker.unconsumed_tail


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """The name and the data of each chunk, as far as they are whole."""
    at = _SIGNATURE
    while at + _BEFORE <= len(data):
        length, name = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + _BEFORE]
        end = at + _BEFORE + length
        if end + _AFTER > len(data):
            raise OSError("image file is truncated")
        body = data[at + _BEFORE : end]
        if zlib.crc32(body, zlib.crc32(name)) != int.from_bytes(data[end : end + _AFTER], "big"):
            raise OSError("broken PNG file")
        yield name, body
        at = end + _AFTER


def _row_starts(data: bytes) -> Iterator[int | None]:
    """Where each row begins among the unpacked bytes; None when there are no more."""
    at = 0
    for rows, length in _passes(data):
        for _ in range(rows):
            yield at
            at += length
    yield None


def _size_of_rows(data: bytes) -> int:
    return sum(rows * length for rows, length in _passes(data))


def _passes(data: bytes) -> Iterator[tuple[int, int]]:
    """How many rows each pass over the image has, and how many bytes each: one that says its filter first."""
    header = next(body for name, body in _chunks(data) if name == b"IHDR")
    width, height = int.from_bytes(header[:4], "big"), int.from_bytes(header[4:8], "big")
    bits, colour, is_interlaced = header[8], header[9], header[12]
    for x, y, across, down in _PASSES if is_interlaced else _WHOLE:
        columns, rows = -(-(width - x) // across), -(-(height - y) // down)
        if columns > 0:
            yield rows, 1 + -(-columns * bits * _CHANNELS[colour] // 8)
