"""The tables for other programs: every piece, and what each layout uses of each supply."""

from __future__ import annotations

import csv
from fractions import Fraction
from io import StringIO

import pytest

from booklet.cli.tables import sorting_csv, supplies_csv
from booklet.measure.length import parse_length
from tests.content.specs import DEMOS, SMALL, SNIPPED, demo, resolved_spec


def rows_of(table: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(table.decode("utf-8"), newline="")))


def test_the_sorting_table_for_programs_follows_rfc_4180() -> None:
    table = sorting_csv(demo("hill-line"))
    assert table.startswith(
        b"label,name,width,height,width in decimals,height in decimals,unit,"
        b"sheet,source,pocket,layout,optional,parts\r\n"
    )
    assert table.count(b"\r\n") == table.count(b"\n") == 1 + len(demo("hill-line").ledger.entries)


@pytest.mark.parametrize("name", DEMOS)
def test_the_sorting_table_for_programs_has_every_piece_at_its_exact_size(name: str) -> None:
    resolved = demo(name)
    unit = resolved.kit.unit
    for row, entry in zip(rows_of(sorting_csv(resolved)), resolved.ledger.entries, strict=True):
        assert (row["label"], row["name"]) == (entry.label, entry.name)
        assert parse_length(row["width"], unit) == entry.size.width
        assert parse_length(row["height"], unit) == entry.size.height
        assert Fraction(row["width in decimals"]) == entry.size.width
        assert Fraction(row["height in decimals"]) == entry.size.height
        assert row["unit"] == unit.value
        assert row["pocket"] == (entry.pocket or "")


def test_a_size_that_no_ruler_shows_is_exact_in_the_table_for_programs() -> None:
    text = SMALL.replace("unit: in", "unit: mm").replace("12 x 12", "305 x 305")
    text = text.replace("at: [8, 2 1/2]", "at: [200, 50.35]").replace("at: [7]", "at: [100 1/3]")
    sizes = {row["name"]: (row["width"], row["height"]) for row in rows_of(sorting_csv(resolved_spec(text)))}
    assert sizes["strap"] == ("105", "305")
    assert sizes["strip"] == ("50.35", "305")
    assert sizes["tall panel"] == ("149.65", "100 1/3")


def test_a_spare_piece_from_the_box_has_no_sheet_and_no_layout() -> None:
    spare = [row for row in rows_of(sorting_csv(demo("hill-line"))) if not row["layout"]]
    assert [(row["name"], row["source"], row["sheet"], row["pocket"]) for row in spare] == [
        ("brass mat", "ready-cut", "", "")
    ]


def test_a_comma_in_a_title_stays_within_its_field() -> None:
    resolved = demo("roof-garden")
    assert {row["layout"] for row in rows_of(sorting_csv(resolved))} >= {"Good night, tomatoes"}


@pytest.mark.parametrize("name", DEMOS)
def test_the_supplies_table_for_programs_adds_up(name: str) -> None:
    resolved = demo(name)
    unit = resolved.kit.unit
    rows = rows_of(supplies_csv(resolved))
    for supply in resolved.kit.supplies:
        mine = [row for row in rows if row["supply"] == supply.id]
        amounts = sum((parse_length(row["amount"], unit) for row in mine if row["amount"]), Fraction(0))
        assert amounts == parse_length(mine[0]["used"], unit)
        assert parse_length(mine[0]["in box"], unit) - amounts == parse_length(mine[0]["left"], unit)


def test_a_piece_to_snip_is_reported_with_its_parts_and_one_that_may_be_left_out_as_such() -> None:
    table = rows_of(sorting_csv(resolved_spec(SNIPPED)))
    parts = {row["name"]: row["parts"] for row in table}
    assert parts["strap"] == "head 4 x 4; thin 1 x 5; wide 3 x 5"
    assert [row["name"] for row in table if row["optional"]] == ["tall panel"]


def test_a_base_that_waits_in_the_pile_has_its_layout_and_no_pocket() -> None:
    (base,) = [row for row in rows_of(sorting_csv(resolved_spec(SMALL))) if row["name"] == "sand"]
    assert (base["sheet"], base["pocket"], base["layout"]) == ("2", "", "Ebb")


def test_the_supplies_table_says_what_comes_from_home() -> None:
    text = SMALL + "supplies: [{id: dots, kind: dots, from: home}, {id: brads, kind: brads, count: 2}]\n"
    rows = rows_of(supplies_csv(resolved_spec(text)))
    assert [(row["supply"], row["in box"], row["from"]) for row in rows] == [
        ("dots", "", "home"),
        ("brads", "2", "box"),
    ]
