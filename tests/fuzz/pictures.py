"""Image files that a kit may be given in good or bad faith, by what is the matter with them."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable
from functools import cache
from io import BytesIO
from pathlib import Path

from PIL import Image

_DEMO = Path(__file__).parents[2] / "kit_specs" / "hill-line.jpg"
KINDS = (
    "sound", "tiny", "palette", "transparent palette", "grey and alpha", "sixteen bits", "one bit", "CMYK",
    "turned", "fifty million pixels", "fifty million with alpha", "a strip", "progressive", "cut short",
    "no bytes", "text", "a picture of another kind", "wide header", "broken data", "zero wide", "too many",
    "notes without end",
)  # fmt: skip


@cache
def picture(kind: str) -> bytes:
    """The bytes of an image file of one of the kinds."""
    if kind in _MADE:
        return _saved(*_MADE[kind])
    jpeg = _DEMO.read_bytes()
    return _SPOILED[kind](jpeg) if kind in _SPOILED else jpeg


# From the sound picture.
_SPOILED: dict[str, Callable[[bytes], bytes]] = {
    "turned": lambda _: _turned(),
    "fifty million pixels": lambda _: _flat_png(7071, 7071, 2),
    "fifty million with alpha": lambda _: _flat_png(7071, 7071, 6),
    "a strip": lambda _: _flat_png(20_000, 1, 0),
    "cut short": lambda jpeg: jpeg[: len(jpeg) // 3],
    "no bytes": lambda _: b"",
    "text": lambda _: b"title: no picture\n",
    "wide header": lambda _: _png(0x7FFFFFFF, 0x7FFFFFFF, 2, b""),
    "broken data": lambda _: _png(40, 40, 2, b"no stream of zlib"),
    "zero wide": lambda _: _png(0, 40, 2, b""),
    "too many": lambda _: _flat_png(20_001, 10, 0),
    "notes without end": lambda jpeg: jpeg[:2] + b"\xff\xfe\xff\xff" + jpeg[2:],
}

_MADE: dict[str, tuple[str, tuple[int, int], str]] = {
    "tiny": ("RGB", (1, 1), "PNG"),
    "palette": ("P", (40, 30), "PNG"),
    "transparent palette": ("PA", (40, 30), "PNG"),
    "grey and alpha": ("LA", (40, 30), "PNG"),
    "sixteen bits": ("I;16", (40, 30), "PNG"),
    "one bit": ("1", (40, 30), "PNG"),
    "CMYK": ("CMYK", (40, 30), "JPEG"),
    "progressive": ("RGB", (400, 300), "JPEG"),
    "a picture of another kind": ("RGB", (40, 30), "GIF"),
}


def _saved(mode: str, size: tuple[int, int], kind: str) -> bytes:
    stream = BytesIO()
    image = Image.new("RGBA" if mode == "PA" else mode, size)
    if mode == "PA":
        image = image.quantize(4)
        image.info["transparency"] = b"\x00\x80"
    image.save(stream, kind, **({"progressive": True} if kind == "JPEG" else {}))
    return stream.getvalue()


def _turned() -> bytes:
    """A photograph of which the camera noted that it was held on its side."""
    stream = BytesIO()
    image = Image.new("RGB", (60, 40), "#336699")
    notes = image.getexif()
    notes[0x0112] = 6
    image.save(stream, "JPEG", exif=notes)
    return stream.getvalue()


def _flat_png(width: int, height: int, colours: int) -> bytes:
    """One colour all over: few bytes, however many pixels."""
    channels = {0: 1, 2: 3, 6: 4}[colours]
    packer = zlib.compressobj(9)
    row = b"\x00" + b"\x80" * (width * channels)
    data = b"".join(packer.compress(row) for _ in range(height)) + packer.flush()
    return _png(width, height, colours, data)


def _png(width: int, height: int, colours: int, data: bytes) -> bytes:
    header = struct.pack(">IIBBBBB", width, height, 8, colours, 0, 0, 0)
    parts = ((b"IHDR", header), (b"IDAT", data), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(map(_chunk, *zip(*parts, strict=True)))


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
