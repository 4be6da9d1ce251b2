"""However a sheet is cut: every reading once in order, every piece in one row with its pocket and a box."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.content.blocks import SlipRow
from booklet.content.cutting.sheets import sheet_sections
from booklet.content.spans import CutRef, Extent, PocketRef
from booklet.content.words.language import ENGLISH
from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.kit.kit import Kit
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import PAPERS, cuts_in, letters_in, stages_of
from tests.drawing.looks import resolved_kit
from tests.kits import Data, cut, layout, make_kit, sheet, value_at

EIGHTH = Fraction(1, 8)


@dataclass(frozen=True)
class Lying:
    """A piece of a made-up sheet: its name, how many lie on each other, its size as it lies."""

    name: str
    along: Fraction
    away: Fraction


@st.composite
def kits(draw: st.DrawFn) -> Kit:
    """One to three plain sheets cut together, a piece taken again a few times, in any order of readings."""
    count = draw(st.integers(1, 3))
    hand, bench = Lying("whole", Fraction(12), Fraction(12)), list[Lying]()
    steps: list[Data] = []
    for stage in range(draw(st.integers(1, 4))):
        turn = draw(st.sampled_from([None, "clockwise", "anticlockwise", "half"]))
        along, away = (hand.along, hand.away) if turn in (None, "half") else (hand.away, hand.along)
        marks = draw(st.lists(st.integers(1, int(along / EIGHTH) - 1), min_size=1, max_size=5, unique=True))
        names = [
            "scrap" if draw(st.integers(0, 4)) == 0 else f"piece {stage}{at}" for at in range(len(marks) + 1)
        ]
        step = cut([str(mark * EIGHTH) for mark in marks], names, turn=turn)
        steps.append(step if stage == 0 else step | {"take": [hand.name] * count})
        bounds = [Fraction(0), *(mark * EIGHTH for mark in sorted(marks)), along]
        made = [
            Lying(name, high - low, away) for name, low, high in zip(names, bounds, bounds[1:], strict=False)
        ]
        bench = [one for one in (*bench, *made) if one is not hand and one.name != "scrap"]
        again = [
            one for one in bench if max(one.along, one.away) > EIGHTH and min(one.along, one.away) > EIGHTH
        ]
        if not again:
            break
        hand = draw(st.sampled_from(again))
    wanted = [draw(st.integers(0, 3)) for _ in bench]
    spare = [
        one.name for one, pocket in zip(bench, wanted, strict=True) if pocket == 0 and draw(st.booleans())
    ]
    layouts = [
        layout(
            "base",
            *(one.name for one, pocket in zip(bench, wanted, strict=True) if pocket == at),
            id=f"layout {at}",
            pocket=at,
        )
        for at in (1, 2, 3)
    ]
    base = {"id": "base", "paper": "plain", "count": 3, "cuts": []}
    cut_sheet = sheet(*(step_without_none(step) for step in steps), count=count, spare=spare)
    return make_kit(cut_sheet, base, papers=PAPERS, layouts=layouts)


def step_without_none(step: Data) -> dict[str, Any]:
    return {key: value for key, value in step.items() if value is not None}


def rows_of(kit: ResolvedKit) -> list[tuple[int, SlipRow]]:
    """All rows of the cut sheet, each with the number of its stage."""
    (section,) = sheet_sections(kit, ENGLISH)
    return [(at, row) for at, stage in enumerate(stages_of(section), start=1) for row in stage.slip.rows]


# Four tests look at such kits, all of whose sheets are told: each at forty of them.
KITS = settings(max_examples=40)


@KITS
@given(kits())
def test_every_reading_is_told_once_in_order(kit: Kit) -> None:
    resolved = resolved_kit(kit)
    told = [(row.cut.number, row.reading) for _, row in rows_of(resolved) if row.cut and row.reading]
    cuts = [made for stage in resolved.sheets[0].stages for made in stage.cuts]
    assert [number for number, _ in told] == list(range(1, len(cuts) + 1))
    assert [reading.value for _, reading in told] == [made.reading for made in cuts]
    assert [value_at(kit, reading.source) for _, reading in told] == [made.reading for made in cuts]


def made_in(sheet: CutSheet) -> list[tuple[int, Piece]]:
    """Every piece with a letter, and the stage that leaves it."""
    return [
        (stage.number, piece)
        for stage in sheet.stages
        for strip in stage.strips
        for piece in strip.pieces
        if piece.fate is not Fate.SCRAP
    ]


@KITS
@given(kits())
def test_every_piece_stands_in_one_row_with_its_pocket_or_the_cut_that_takes_it(kit: Kit) -> None:
    resolved = resolved_kit(kit)
    cut_sheet = resolved.sheets[0]
    rows = rows_of(resolved)
    assert Counter(label for _, row in rows for label in letters_in(row.said)) == Counter(
        piece.label for _, piece in made_in(cut_sheet)
    )
    for stage, piece in made_in(cut_sheet):
        (row,) = [row for at, row in rows if at == stage and piece.label in letters_in(row.said)]
        entry = resolved.ledger.of_piece(piece)
        pocket = entry.pocket if entry and piece.fate is Fate.KEPT else None
        assert row.pocket == (PocketRef(pocket) if pocket is not None else None)
        assert row.is_tick == (piece.fate is Fate.KEPT)
        assert cuts_in(row.said) == taken_by(cut_sheet, piece)


def taken_by(sheet: CutSheet, piece: Piece) -> list[int]:
    """The first cut of the stage that takes a piece."""
    return [
        stage.cuts[0].number for stage in sheet.stages if piece.label in [one.label for one in stage.taken]
    ]


@KITS
@given(kits())
def test_the_size_of_whatever_is_kept_stands_in_its_row_or_in_those_just_above(kit: Kit) -> None:
    resolved = resolved_kit(kit)
    pieces = {piece.label: piece for _, piece in made_in(resolved.sheets[0])}
    (section,) = sheet_sections(resolved, ENGLISH)
    for stage in stages_of(section):
        above: Size | None = None
        for row in stage.slip.rows:
            stated = next((span.size for span in row.said if isinstance(span, Extent)), None)
            labels = letters_in(row.said)
            is_kept = bool(labels) and not any(isinstance(span, CutRef) for span in row.said)
            above = (stated or above) if is_kept else None
            assert not is_kept or {pieces[label].size for label in labels} == {above}


@KITS
@given(kits())
def test_every_strip_of_scrap_is_told(kit: Kit) -> None:
    resolved = resolved_kit(kit)
    scrap = [
        strip
        for stage in resolved.sheets[0].stages
        for strip in stage.strips
        if strip.pieces[0].fate is Fate.SCRAP
    ]
    bare = [row for _, row in rows_of(resolved) if not letters_in(row.said)]
    nothing = [row for row in bare if row.said == ENGLISH.cutting.both_stay]
    assert len(bare) - len(nothing) == len(scrap)
