"""Changes to what a page says: digits, numbers, letters of pieces, the numbers of rings, lines left out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

import pikepdf

from tests.tampering.record import Tampering
from tests.tampering.streams import Drawn, Edits, Sheet, Show, edited, instruction

_FIGURES = ("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉")
_NUMBER = re.compile("[0-9]+(?:[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+)?|[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+")
# A piece's letter alone, or after the number of its sheet.
_LETTER = re.compile(r"(?<![\w.])[0-9]+([A-Z])(?!\w)|^([A-Z])$")
# A reading on a slip is printed so large, in points, and nothing else that is a number alone.
_READING = 13.2, 13.8
# What stands on the row of a reading lies so little above or below its baseline, in points.
_ROW = 4.0
# A ring is moved so many of its widths beside another; the ground below it lies about its middle, in points.
_BESIDE, _SAME_MIDDLE = 1.2, 0.5


def said(sheet: Sheet, show: Show) -> str:
    """The whole line in which a text stands."""
    mine = (show.forms, show.block, show.line)
    return "".join(each.text for each in sheet.shows if (each.forms, each.block, each.line) == mine).strip()


def digits(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each digit by the next that its font holds."""
    for sheet in sheets:
        for show in sheet.shows:
            for place, letter in enumerate(show.text):
                if other := _next_figure(show, letter):
                    text = f"{show.text[:place]}{other}{show.text[place + 1 :]}"
                    yield _said_otherwise(sheet, {show: text}, _told(sheet, show, text))


def _next_figure(show: Show, letter: str) -> str | None:
    """The next figure of a digit's row that its font holds; none for what is no digit."""
    row = next((row for row in _FIGURES if letter in row), None)
    if row is None:
        return None
    others = (row[(row.index(letter) + step) % 10] for step in range(1, 10))
    return next((other for other in others if other in show.font.codes), None)


def _told(sheet: Sheet, show: Show, text: str) -> str:
    return f"'{show.text.strip()}' of '{said(sheet, show)}' becomes '{text.strip()}'"


def numbers_exchanged(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each number of a page with the next other one of the page."""
    for sheet in sheets:
        found = [(show, *each.span()) for show in sheet.shows for each in _NUMBER.finditer(show.text)]
        for (one, *span), (other, *next_span) in pairwise(found):
            first, second = one.text[slice(*span)], other.text[slice(*next_span)]
            if first != second and one.forms == other.forms:
                texts = _exchanged(one, slice(*span), other, slice(*next_span))
                if all(show.font.written(text) for show, text in texts.items()):
                    words = f"'{first}' of '{said(sheet, one)}' and '{second}' of '{said(sheet, other)}'"
                    yield _said_otherwise(sheet, texts, words)


def readings_exchanged(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each reading of a page with the next other one."""
    for sheet in sheets:
        for one, other in pairwise(readings(sheet)):
            if one.text != other.text:
                texts = {one: other.text, other: one.text}
                words = f"readings '{one.text}' and '{other.text}'"
                yield _said_otherwise(sheet, texts, words)


def _exchanged(one: Show, first: slice, other: Show, second: slice) -> dict[Show, str]:
    """The texts of two shows, or of one, with a part of each in the other's place."""
    a, b = one.text[first], other.text[second]
    if one is other:
        text = one.text
        return {one: text[: first.start] + b + text[first.stop : second.start] + a + text[second.stop :]}
    return {
        one: one.text[: first.start] + b + one.text[first.stop :],
        other: other.text[: second.start] + a + other.text[second.stop :],
    }


def letters(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each letter of a piece by the next other one of its page."""
    for sheet in sheets:
        found = [(show, _span(each)) for show in sheet.shows for each in _LETTER.finditer(show.text)]
        used = sorted({show.text[span] for show, span in found})
        for show, span in found:
            if len(used) > 1:
                other = used[(used.index(show.text[span]) + 1) % len(used)]
                text = show.text[: span.start] + other + show.text[span.stop :]
                yield _said_otherwise(sheet, {show: text}, _told(sheet, show, text))


def letters_exchanged(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each letter that stands alone with the next other one of its page."""
    for sheet in sheets:
        alone = [show for show in sheet.shows if _LETTER.fullmatch(show.text)]
        for one, other in pairwise(alone):
            if one.text != other.text and one.forms == other.forms:
                words = f"letters '{one.text}' and '{other.text}'"
                yield _said_otherwise(sheet, {one: other.text, other: one.text}, words)


def _span(found: re.Match[str]) -> slice:
    return slice(*found.span(1 if found[1] else 2))


def _said_otherwise(sheet: Sheet, texts: dict[Show, str], words: str) -> Tampering:
    edits: Edits = {}
    for show, text in texts.items():
        codes = show.font.written(text)
        assert codes is not None, f"{text!r} is not in the font"
        edits[show.at] = [instruction("Tj", pikepdf.String(codes))]
    return Tampering(sheet.number, words, edited(sheet.number, next(iter(texts)).forms, edits))


# Rings.


def rings(sheet: Sheet) -> list[tuple[Drawn, Show]]:
    """The circles about a number, each with the number."""
    found = []
    for path in sheet.drawn:
        if path.is_stroked and path.is_filled and path.is_circle:
            left, bottom, right, top = path.box
            found += [
                (path, show)
                for show in sheet.shows
                if show.forms == path.forms and show.text.isdecimal() and path.end < show.at
                if left < show.origin[0] < right and bottom < show.origin[1] < top
            ][:1]
    return found


def rings_exchanged(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each ring's number with that of the next ring that has another."""
    for sheet in sheets:
        for (_, one), (_, other) in pairwise(rings(sheet)):
            texts = {one: other.text, other: one.text}
            if one.text != other.text and all(show.font.written(text) for show, text in texts.items()):
                words = f"rings '{one.text}' and '{other.text}'"
                yield _said_otherwise(sheet, texts, words)


def rings_renumbered(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each ring with the number of the next ring that has another."""
    for sheet in sheets:
        for (_, one), (_, other) in pairwise(rings(sheet)):
            if one.text != other.text and one.font.written(other.text):
                words = f"ring '{one.text}' becomes '{other.text}'"
                yield _said_otherwise(sheet, {one: other.text}, words)


def rings_moved(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each ring with its number, close beside the next ring that has another."""
    for sheet in sheets:
        for (path, one), (next_path, other) in pairwise(rings(sheet)):
            if one.text != other.text and path.forms == next_path.forms:
                left, bottom, right, _ = path.box
                x, y, _, _ = next_path.box
                words = f"ring '{one.text}' beside ring '{other.text}'"
                by = (x - left + _BESIDE * (right - left), y - bottom)
                edits = _carried(sheet, path, one, by)
                yield Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))


def _carried(sheet: Sheet, path: Drawn, show: Show, by: tuple[float, float]) -> Edits:
    """Edits that move a ring, the ground below it and its number by so much on the page."""
    stream, inner = sheet.streams[path.forms], path.matrix.inverse()
    (x, y), (x0, y0) = inner.transform(by), inner.transform((0, 0))
    before = [each for each in sheet.drawn if each.forms == path.forms and each.end < path.start][-1:]
    grounds = [each for each in before if each.is_circle and _middle_off(each, path) < _SAME_MIDDLE]
    start = grounds[0].start if grounds else path.start
    end = next(at for at in range(show.at, len(stream)) if str(stream[at].operator) == "ET")
    return {
        start: [instruction("cm", 1, 0, 0, 1, x - x0, y - y0), stream[start]],
        end: [stream[end], instruction("cm", 1, 0, 0, 1, x0 - x, y0 - y)],
    }


def _middle_off(one: Drawn, other: Drawn) -> float:
    """How far apart the middles of two paths lie."""
    (a, b, c, d), (p, q, r, s) = one.box, other.box
    return hypot(a + c - p - r, b + d - q - s) / 2


# What is left out.


def lines_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each line of text."""
    for sheet in sheets:
        lines: dict[tuple[object, ...], list[Show]] = {}
        for show in sheet.shows:
            lines.setdefault((show.forms, show.block, show.line), []).append(show)
        for shows in lines.values():
            if text := "".join(show.text for show in shows).strip():
                yield _left_out(sheet, shows, f"'{text}'")


def rows_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each row of a slip: all texts on the line of a reading."""
    for sheet in sheets:
        for reading in readings(sheet):
            row = [
                show
                for show in sheet.shows
                if show.forms == reading.forms and abs(show.origin[1] - reading.origin[1]) < _ROW
                if show.origin[0] > reading.origin[0] - 40
            ]
            text = " ".join(filter(None, (show.text.strip() for show in row)))
            yield _left_out(sheet, row, f"'{text}'")


def readings(sheet: Sheet) -> list[Show]:
    """The readings of the slips of a page."""
    least, most = _READING
    return [show for show in sheet.shows if _NUMBER.search(show.text) and least < show.size < most]


def _left_out(sheet: Sheet, shows: Sequence[Show], words: str) -> Tampering:
    edits: Edits = {show.at: [] for show in shows}
    return Tampering(sheet.number, words, edited(sheet.number, shows[0].forms, edits))


# What is printed too small.


def small_numbers(sheets: Sequence[Sheet], size: float = 7.5) -> Iterator[Tampering]:
    """Each number that is shown alone, in type of so many points."""
    for sheet in sheets:
        for show in sheet.shows:
            if _NUMBER.fullmatch(show.text.strip()) and show.size > size:
                yield _small(sheet, show, size)


def _small(sheet: Sheet, show: Show, size: float) -> Tampering:
    old = sheet.streams[show.forms][show.tf]
    name, points = old.operands[0], float(old.operands[1])
    edits = {
        show.at: [
            instruction("Tf", name, points * size / show.size),
            sheet.streams[show.forms][show.at],
            instruction("Tf", name, points),
        ]
    }
    words = f"'{show.text.strip()}' of '{said(sheet, show)}' in {size} pt"
    return Tampering(sheet.number, words, edited(sheet.number, show.forms, edits))
