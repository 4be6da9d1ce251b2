"""A face for a page that must bring its own: the glyphs of its letters alone, as a WOFF file.

Glyphs keep their numbers; those that are not needed are emptied, and compress to nothing.  The tables are
those of the OpenType specification (ISO/IEC 14496-22), the file is that of WOFF 1.0 (W3C), both from memory;
the tests hold the result against fontTools and a browser.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from booklet.drawing.shapes.fonts import Font, font_file, glyph_number
from booklet.drawing.shapes.glyphs import part_numbers
from booklet.drawing.shapes.truetype import glyph_begins, read_tables

# What a browser sets type by; what kerns, joins letters or serves other programs stays out.
_KEPT = (b"OS/2", b"cmap", b"glyf", b"head", b"hhea", b"hmtx", b"loca", b"maxp", b"name", b"post", b"prep")
_TRUE_TYPE = 0x00010000
_LAST_IN_PLANE = 0xFFFF
# What a file's `checkSumAdjustment` makes the sum of all of it (OpenType, table head).
_WHOLE_SUM = 0xB1B0AFBA


def web_font(font: Font, letters: Iterable[str]) -> bytes:
    """A face with these letters, as far as it has them and they lie in the basic plane of Unicode."""
    tables = read_tables(font_file(font).read_bytes())
    codes = sorted({ord(letter) for letter in letters if ord(letter) < _LAST_IN_PLANE})
    numbers = {code: number for code in codes if (number := glyph_number(chr(code), font)) is not None}
    glyphs, places = _emptied(tables, {0, *numbers.values()})
    changed = {
        b"glyf": glyphs,
        b"loca": places,
        b"cmap": _character_map(numbers),
        # Names of glyphs serve printers: version 3 has none.
        b"post": struct.pack(">L", 0x00030000) + tables[b"post"][4:32],
        # The places are written long; the sum is made again.
        b"head": tables[b"head"][:8] + bytes(4) + tables[b"head"][12:50] + struct.pack(">h", 1) + bytes(2),
    }
    kept = {tag: changed.get(tag, tables.get(tag, b"")) for tag in _KEPT}
    return _woff(_summed({tag: data for tag, data in kept.items() if data}))


# The glyphs.


def _emptied(tables: Mapping[bytes, bytes], wanted: set[int]) -> tuple[bytes, bytes]:
    """The table of glyphs with those alone that are wanted or are part of them, and where each begins."""
    outlines = tables[b"glyf"]
    drawn = [outlines[begin:end] for begin, end in pairwise(glyph_begins(tables))]
    waiting = sorted(wanted)
    while waiting:
        parts = set(part_numbers(drawn[waiting.pop()])) - wanted
        wanted |= parts
        waiting += sorted(parts)
    kept = [glyph if number in wanted else b"" for number, glyph in enumerate(drawn)]
    kept = [glyph + bytes(-len(glyph) % 4) for glyph in kept]
    places, at = [0], 0
    for glyph in kept:
        at += len(glyph)
        places.append(at)
    return b"".join(kept), struct.pack(f">{len(places)}L", *places)


# The letters.


def _character_map(numbers: Mapping[int, int]) -> bytes:
    """The glyphs of codes as a table of format 4: runs in which both count up, and the end of the plane."""
    runs = [*_runs(numbers), (_LAST_IN_PLANE, _LAST_IN_PLANE, 1)]
    count = len(runs)
    entry = count.bit_length() - 1
    search = 2 * 2**entry
    ends, starts, deltas = zip(*((end, start, delta) for start, end, delta in runs), strict=True)
    body = struct.pack(f">{count}H", *ends) + bytes(2) + struct.pack(f">{count}H", *starts)
    body += struct.pack(f">{count}H", *deltas) + bytes(2 * count)
    head = struct.pack(">HHHHHHH", 4, 14 + len(body), 0, 2 * count, search, entry, 2 * count - search)
    # Version 0 with one table: for Windows, Unicode, which starts at 12.
    return struct.pack(">HHHHL", 0, 1, 3, 1, 12) + head + body


def _runs(numbers: Mapping[int, int]) -> Iterator[tuple[int, int, int]]:
    """The first and last code of each run, and what is added to a code for its glyph, in the 16 bits."""
    start = end = -1
    for code, number in numbers.items():
        if start >= 0 and code == end + 1 and number - code == numbers[start] - start:
            end = code
            continue
        if start >= 0:
            yield start, end, (numbers[start] - start) % 0x10000
        start = end = code
    if start >= 0:
        yield start, end, (numbers[start] - start) % 0x10000


# The file.


def _sum(data: bytes) -> int:
    padded = data + bytes(-len(data) % 4)
    return int(sum(struct.unpack(f">{len(padded) // 4}L", padded)) % 2**32)


def _directory_size(tables: Mapping[bytes, bytes]) -> int:
    return 12 + 16 * len(tables)


def _summed(tables: Mapping[bytes, bytes]) -> dict[bytes, bytes]:
    """The tables with the sum of the whole file, as it is when it is unpacked, in their head."""
    count = len(tables)
    entry = count.bit_length() - 1
    search = 16 * 2**entry
    directory = struct.pack(">LHHHH", _TRUE_TYPE, count, search, entry, 16 * count - search)
    at = _directory_size(tables)
    for tag, data in tables.items():
        directory += struct.pack(">4sLLL", tag, _sum(data), at, len(data))
        at += len(data) + -len(data) % 4
    whole = (_sum(directory) + sum(map(_sum, tables.values()))) % 2**32
    head = tables[b"head"]
    rest = (_WHOLE_SUM - whole) % 2**32
    return {**tables, b"head": head[:8] + struct.pack(">L", rest) + head[12:]}


def _woff(tables: Mapping[bytes, bytes]) -> bytes:
    """The tables packed, each by itself where that makes it shorter."""
    begin = at = 44 + 20 * len(tables)
    directory, packed = b"", b""
    for tag, data in tables.items():
        short = zlib.compress(data, 9)
        stored = short if len(short) < len(data) else data
        # The sum of a head is that of one without the sum of the file.
        plain = data[:8] + bytes(4) + data[12:] if tag == b"head" else data
        directory += struct.pack(">4sLLLL", tag, at, len(stored), len(data), _sum(plain))
        stored += bytes(-len(stored) % 4)
        packed += stored
        at = begin + len(packed)
    unpacked = _directory_size(tables) + sum(len(data) + -len(data) % 4 for data in tables.values())
    version = (1, 0)
    head = struct.pack(
        ">4sLLHHLHHLLLLL",
        b"wOFF",
        _TRUE_TYPE,
        at,
        len(tables),
        0,
        unpacked,
        *version,
        *(0, 0, 0, 0, 0),
    )
    return head + directory + packed
