"""Tables for other programs: comma-separated after RFC 4180, in UTF-8, safe to open in a spreadsheet."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import exact_length

# What a spreadsheet takes for the beginning of a formula (OWASP, "CSV Injection", from memory); what stands
# before it there says that it is text.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_AS_TEXT = "'"
# A decimal of so many places says every length that a ruler shows exactly.
_PLACES = 6


def csv_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    """Rows as a table, the first one its head; lines end with CR LF, and no cell is taken for a formula."""
    out = StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerows([_cell(text) for text in row] for row in rows)
    return out.getvalue().encode("utf-8")


def csv_rows(text: str) -> list[list[str]]:
    """The rows of such a table, each cell as it was before it was made safe.  Raises csv.Error."""
    return [[_said(cell) for cell in row] for row in csv.reader(StringIO(text, newline=""))]


def _cell(text: str) -> str:
    """A cell marked as text where it would be a formula, or where it begins with that mark itself."""
    return _AS_TEXT + text if text.lstrip(_AS_TEXT).startswith(_FORMULA) else text


def _said(cell: str) -> str:
    is_marked = cell.startswith(_AS_TEXT) and cell.lstrip(_AS_TEXT).startswith(_FORMULA)
    return cell[1:] if is_marked else cell


def length_cell(value: Fraction, unit: Unit) -> str:
    """An exact length as it would be typed, a bare fraction after a 0: else `3/8` is read as a date."""
    text = exact_length(value, unit)
    return f"0 {text}" if 0 < value < 1 and "/" in text else text


def decimal_cell(value: Fraction) -> str:
    """A number in decimals, rounded to the sixth place: `7.375`."""
    digits = round(value * 10**_PLACES)
    whole, decimals = divmod(abs(digits), 10**_PLACES)
    return ("-" if digits < 0 else "") + f"{whole}.{decimals:0{_PLACES}}".rstrip("0").rstrip(".")
