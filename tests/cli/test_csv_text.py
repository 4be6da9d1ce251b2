"""Tables that open in a spreadsheet as they are meant: no formulas, no dates, decimals that add up."""

from __future__ import annotations

import csv
from fractions import Fraction
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cli.csv_text import csv_bytes, csv_rows, decimal_cell, length_cell
from booklet.cli.tables import sorting_csv
from booklet.measure.length import Unit, parse_length
from tests.cli.test_tables import rows_of
from tests.content.specs import SMALL, resolved_spec

CELLS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0\r\n"), max_size=12)


# OWASP, "CSV Injection" (from memory): = + - @, a tab and a carriage return begin a formula.
@pytest.mark.parametrize("name", ["=1+1", "+cmd", "-2", "@SUM(A1)", "\t=1", "\r=1"])
def test_no_cell_begins_like_a_formula(name: str) -> None:
    (row,) = csv.reader(StringIO(csv_bytes([(name, "wide strip")]).decode(), newline=""))
    assert row == [f"'{name}", "wide strip"]


def test_ordinary_names_are_written_as_they_are() -> None:
    names = ("left canopy", "3/4 moon", "’tis", "'quoted'", "a = b", "tag #2", "«Hafen»")
    assert csv_rows(csv_bytes([names]).decode()) == [list(names)]
    assert csv_bytes([names]).decode().strip().split(",") == list(names)


@given(st.lists(st.lists(CELLS, min_size=1, max_size=4).filter(any), min_size=1, max_size=5))
def test_what_is_written_is_read_back(rows: list[list[str]]) -> None:
    assert csv_rows(csv_bytes(rows).decode()) == rows


def test_a_name_of_the_kit_that_begins_with_a_sign_is_text_in_the_sorting_table() -> None:
    table = sorting_csv(resolved_spec(SMALL.replace("tall panel", '"=tall panel"')))
    assert "'=tall panel" in [row["name"] for row in rows_of(table)]
    assert "=tall panel" in [row[1] for row in csv_rows(table.decode())]


def test_a_bare_fraction_is_no_date_and_reads_as_the_length_that_it_is() -> None:
    assert length_cell(Fraction(3, 8), Unit.INCH) == "0 3/8"
    assert parse_length("0 3/8", Unit.INCH) == Fraction(3, 8)
    assert length_cell(Fraction(31, 4), Unit.INCH) == "7 3/4"
    assert length_cell(Fraction(0), Unit.INCH) == "0"
    assert length_cell(Fraction(3, 10), Unit.CENTIMETRE) == "0.3"


def test_every_mark_of_a_ruler_is_exact_in_decimals() -> None:
    for sixty_fourths in range(1, 64 * 12):
        value = Fraction(sixty_fourths, 64)
        assert Fraction(decimal_cell(value)) == value
    assert decimal_cell(Fraction(1, 3)) == "0.333333"
    assert decimal_cell(Fraction(12)) == "12"
