"""A TrueType file read for its tables, how wide its letters run, and which glyphs they are: no outlines.

The layout of the tables is that of the OpenType specification (ISO/IEC 14496-22), from memory; the tests hold
all of it against fontTools and reportlab, which each take longer to load than a check takes.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

# The table of characters that holds all of Unicode, by platform and encoding, and its format.
_UNICODE, _IN_GROUPS = (3, 10), 12
_GLYPH_OF_NONE = 0


@dataclass(frozen=True)
class Face:
    """A face: the glyph of each character that it has, and how far each glyph advances, of `em` to the em."""

    em: int
    glyphs: Mapping[int, int]
    advances: Sequence[int]

    def advance(self, text: str) -> int:
        """How wide a text runs, without kerning; a character that is not there is as wide as its stand-in."""
        widths, stand_in = self._widths, self.advances[_GLYPH_OF_NONE]
        return sum(widths.get(character, stand_in) for character in text)

    @cached_property
    def _widths(self) -> dict[str, int]:
        return {chr(code): self.advances[glyph] for code, glyph in self.glyphs.items()}


def open_face(path: Path) -> Face:
    """Open one of our faces; a file that is none fails as it may."""
    tables = read_tables(path.read_bytes())
    (count,) = struct.unpack_from(">H", tables[b"maxp"], 4)
    return Face(units_per_em(tables), dict(_characters(tables[b"cmap"])), _advances(tables, count))


def read_tables(data: bytes) -> dict[bytes, bytes]:
    """The tables of a file by their tags."""
    tables = {}
    for at in range(12, 12 + 16 * struct.unpack_from(">H", data, 4)[0], 16):
        tag, _, begin, length = struct.unpack_from(">4sLLL", data, at)
        tables[tag] = data[begin : begin + length]
    return tables


def units_per_em(tables: Mapping[bytes, bytes]) -> int:
    """How many units of the file make an em."""
    em: int = struct.unpack_from(">H", tables[b"head"], 18)[0]
    return em


def glyph_begins(tables: Mapping[bytes, bytes]) -> list[int]:
    """Where in the table of outlines each glyph begins, and the last one ends."""
    is_long = struct.unpack_from(">h", tables[b"head"], 50)[0]
    count = len(tables[b"loca"]) // (4 if is_long else 2)
    counted_in = 1 if is_long else 2
    begins = struct.unpack(f">{count}{'L' if is_long else 'H'}", tables[b"loca"])
    return [counted_in * begin for begin in begins]


def _characters(cmap: bytes) -> Iterator[tuple[int, int]]:
    """Each character with its glyph."""
    (count,) = struct.unpack_from(">H", cmap, 2)
    entries = (struct.unpack_from(">HHL", cmap, 4 + 8 * at) for at in range(count))
    begin = next(begin for *kind, begin in entries if tuple(kind) == _UNICODE)
    layout, _, _, _, groups = struct.unpack_from(">HHLLL", cmap, begin)
    assert layout == _IN_GROUPS
    for first, last, glyph in struct.iter_unpack(">LLL", cmap[begin + 16 : begin + 16 + 12 * groups]):
        yield from zip(range(first, last + 1), range(glyph, glyph + last - first + 1), strict=True)


def _advances(tables: Mapping[bytes, bytes], glyphs: int) -> tuple[int, ...]:
    """How far each glyph advances; the last that is said stands for those after it."""
    (said,) = struct.unpack_from(">H", tables[b"hhea"], 34)
    advances = struct.unpack(f">{2 * said}H", tables[b"hmtx"][: 4 * said])[::2]
    return (*advances, *advances[-1:] * (glyphs - said))
