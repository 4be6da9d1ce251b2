"""What `booklet check --sheets` shows: what the cuts of each sheet give, and the sums that must close."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from booklet.cli.plan_words import cost_words, count
from booklet.cutting.model import CutSheet, Fate, Piece, Stage
from booklet.measure.length import Unit
from booklet.measure.words import exact_length, exact_size


def sheet_lines(sheets: Sequence[CutSheet], unit: Unit) -> Iterator[str]:
    """For each sheet its work, for each of its steps how the strips add up, and what pieces it gives."""
    for sheet in sorted(sheets, key=lambda one: one.number):
        copies = f"{count(sheet.sheet.count, 'sheet')} of " if sheet.sheet.count > 1 else ""
        work = cost_words(sheet, unit) if sheet.stages else "whole" if sheet.sheet.cuts == () else "not cut"
        yield f"{sheet.number} {sheet.sheet.id}, {copies}{exact_size(sheet.size, unit)}: {work}"
        if sheet.stages:
            yield from (f"  {_stage_words(stage, unit)}" for stage in sheet.stages)
            yield from (f"  {_pieces_words(alike, unit)}" for alike in _by_name(sheet))


def sheets_json(sheets: Sequence[CutSheet], unit: Unit) -> list[dict[str, Any]]:
    """The same for a program; lengths as they are typed."""
    return [
        {
            "number": sheet.number,
            "id": sheet.sheet.id,
            "count": sheet.sheet.count,
            "size": exact_size(sheet.size, unit),
            "sums": [
                {"strips": _widths(stage, unit), "whole": exact_length(stage.seen.width, unit)}
                for stage in sheet.stages
            ],
            "pieces": [
                {"label": piece.label, "name": piece.name, "size": exact_size(piece.size, unit)}
                for alike in _by_name(sheet)
                for piece in alike
            ],
        }
        for sheet in sorted(sheets, key=lambda one: one.number)
    ]


def _stage_words(stage: Stage, unit: Unit) -> str:
    """`2 1/2 + 6 1/2 + 3 = 12: edge strip, middle, wide strip`."""
    names = ", ".join(strip.pieces[0].name for strip in stage.strips)
    return f"{' + '.join(_widths(stage, unit))} = {exact_length(stage.seen.width, unit)}: {names}"


def _widths(stage: Stage, unit: Unit) -> list[str]:
    return [exact_length(strip.end - strip.start, unit) for strip in stage.strips]


def _by_name(sheet: CutSheet) -> list[list[Piece]]:
    """The pieces that are left of a sheet, those of one name, size and fate together."""
    groups: dict[object, list[Piece]] = {}
    for piece in sheet.pieces:
        if piece.is_useful:
            groups.setdefault((piece.name, piece.size, piece.fate), []).append(piece)
    return list(groups.values())


def _pieces_words(alike: Sequence[Piece], unit: Unit) -> str:
    """`1B, 1C: band, 12 x 4 7/8, spare`."""
    labels = ", ".join(dict.fromkeys(piece.label for piece in alike))
    spare = ", spare" if alike[0].fate is Fate.SPARE else ""
    return f"{labels}: {alike[0].name}, {exact_size(alike[0].size, unit)}{spare}"
