"""The page that explains the signs, each only where the kit has it."""

from __future__ import annotations

import pytest

from booklet.content.blocks import Arrangement, Paragraph, Picture, Table
from booklet.content.cutting.signs import how_to_read_section
from booklet.content.figures import Sign, SignFigure
from booklet.content.spans import Length, Line, length_text, plain_text
from booklet.content.words.language import ENGLISH
from booklet.measure.length import Unit
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import resolved
from tests.kits import Data, cut, element, sheet

FEW = sheet(cut([8], ["one", "two"]))
LABELS = sheet(
    cut([6]), id="labels", elements=[element("tag", 0, 0, "6 x 12"), element("ticket", 6, 0, "6 x 12")]
)
ALWAYS = {Sign.READING, Sign.PIECE, Sign.WIDTH, Sign.FLAG}


def signs(kit: ResolvedKit) -> dict[Sign, Line]:
    """The signs that are explained, in order, each with its words."""
    return {figure.sign: said for figure, said in rows(kit)}


def rows(kit: ResolvedKit) -> list[tuple[SignFigure, Line]]:
    """The rows of the table of signs."""
    table, _ = how_to_read_section(kit, ENGLISH).blocks
    assert isinstance(table, Table)
    found = []
    for row in table.rows:
        picture, said = row.cells
        assert isinstance(picture, Picture)
        assert isinstance(picture.figure, SignFigure)
        assert isinstance(said, tuple)
        found.append((picture.figure, said))
    return found


def said(kit: ResolvedKit, sign: Sign) -> str:
    """What is said of a sign."""
    return plain_text(signs(kit)[sign]).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("sheets", "more"),
    [
        ([FEW], set()),
        ([sheet(cut([8], ["one", "scrap"]))], {Sign.SCRAP}),
        ([sheet(cut([8], ["one", "two"]), count=2)], {Sign.STACK}),
        ([sheet(cut([10, 8], ["one", "two", "scrap"]))], {Sign.SCRAP}),
        ([sheet(cut([8, "7 1/2"], ["one", "two", "three"]))], {Sign.LENS}),
        (
            [sheet(cut([8], ["one", "two"]), cut([7], ["three", "four"], take="one", turn="clockwise"))],
            {Sign.SET_ASIDE},
        ),
        ([FEW, LABELS], {Sign.REGISTER_MARK}),
    ],
)
def test_a_sign_is_explained_only_in_a_kit_that_has_it(sheets: list[Data], more: set[Sign]) -> None:
    assert set(signs(resolved(*sheets))) == ALWAYS | more


def test_the_widths_of_strips_alike_are_explained_with_their_count() -> None:
    alike = resolved(sheet(cut([8, 4], ["two", "two", "one"])))
    assert set(signs(alike)) == ALWAYS - {Sign.WIDTH} | {Sign.BRACKET}
    assert "counts strips that are alike" in said(alike, Sign.BRACKET)
    assert "counts" not in said(resolved(FEW), Sign.WIDTH)


def test_a_kit_of_printed_sheets_alone_measures_no_strip() -> None:
    assert Sign.WIDTH not in signs(resolved(LABELS, base="tag"))


def test_a_kit_without_cuts_explains_those_of_its_layouts_alone() -> None:
    whole: Data = {"id": "base", "paper": "plain", "cuts": []}
    section = how_to_read_section(resolved(whole, base="base"), ENGLISH)
    assert plain_text(section.lead) == "All measures are in inches."
    assert list(signs(resolved(whole, base="base"))) == [Sign.FLAG]


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_side_of_the_stop_is_the_trimmer_s(side: str) -> None:
    kit = resolved(FEW, trimmer={"zero": side})
    assert f"its {side} edge at the stop" in plain_text(how_to_read_section(kit, ENGLISH).lead)
    assert f"lie {side} of the blade" in said(kit, Sign.READING)
    assert f"put the paper’s {side} edge at" in said(kit, Sign.READING)


def test_the_signs_are_wanted_on_one_page() -> None:
    assert how_to_read_section(resolved(FEW), ENGLISH).arrangement is Arrangement.COMPACT


@pytest.mark.parametrize(
    ("unit", "shown"),
    [(Unit.INCH, "3\u00a0in"), (Unit.MILLIMETRE, "100\u00a0mm"), (Unit.CENTIMETRE, "10\u00a0cm")],
)
def test_the_length_in_the_words_is_the_one_in_every_sign(unit: Unit, shown: str) -> None:
    kit = resolved(sheet(cut([100], ["one", "two"])) if unit is Unit.MILLIMETRE else FEW, unit=unit)
    lengths = {span for words in signs(kit).values() for span in words if isinstance(span, Length)}
    assert {length_text(length) for length in lengths} == {shown}
    assert {figure.value for figure, _ in rows(kit)} == lengths


def test_laying_is_explained_below_the_signs() -> None:
    _, laying = how_to_read_section(resolved(FEW), ENGLISH).blocks
    assert isinstance(laying, Paragraph)
    assert plain_text(laying.text).startswith("Laying. Lay means glue, unless the step says not yet.")


def test_a_kit_with_a_spare_piece_says_to_keep_it() -> None:
    spare = sheet(cut([8, 4], ["one", "two", "scrap"]), spare=["two"])
    assert "spare" in said(resolved(spare), Sign.SCRAP)
    assert "spare" not in said(resolved(sheet(cut([8], ["one", "scrap"]))), Sign.SCRAP)
