"""On which page is it: things found by what a member calls them, and the index of all."""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from pathlib import Path

import pypdf
import pypdfium2
import pytest

from booklet.cli.find_command import told
from booklet.cli.look_up import folded, look_up
from booklet.cli.main import main
from booklet.cli.starter import STARTER_SPEC
from booklet.content.spans import Own
from booklet.content.things import KitThing, ThingKind
from booklet.pages.things import things_of
from tests.reading.made import made, saved
from tests.spec_data import WHOLE_DEMOS

PIECES = tuple(
    KitThing(ThingKind.PIECE, Own(name, ()), labels)
    for name, labels in (
        ("edge strip", ("3A",)),
        ("wide strip", ("3B",)),
        ("café card", ("4A", "4B")),
        ("leaf", ("5A",)),
        ("berry box", ("6A",)),
        ("seal", ()),
    )
)


def names(asked: str) -> list[str]:
    return [thing.name.text for thing in look_up(PIECES, asked)]


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("edge strip", ["edge strip"]),
        ("EDGE", ["edge strip"]),
        ("strip", ["edge strip", "wide strip"]),
        ("strips", ["edge strip", "wide strip"]),
        ("Cafe", ["café card"]),
        ("CAFÉ", ["café card"]),
        ("leaves", ["leaf"]),
        ("berries", ["berry box"]),
        ("wied strip", ["wide strip"]),
        ("The wide strip", ["wide strip"]),
        ("a", []),
        ("stirp wide", ["wide strip"]),
        ("ca", []),
        ("car", ["café card"]),
        ("3b", ["wide strip"]),
        ("4B", ["café card"]),
        ("3C", []),
        ("piece leaf", ["leaf"]),
        ("window", []),
        ("edge window", []),
        ("", []),
        ("..", []),
    ],
)
def test_a_thing_is_found_by_what_it_may_be_called(asked: str, found: list[str]) -> None:
    assert names(asked) == found


def test_the_best_comes_first() -> None:
    things = (
        KitThing(ThingKind.PIECE, Own("mat of the summit", ())),
        KitThing(ThingKind.LAYOUT, Own("Summit", ()), ("7",)),
    )
    assert [thing.name.text for thing in look_up(things, "summit")] == ["Summit", "mat of the summit"]


def test_words_are_folded_without_case_accents_and_signs() -> None:
    assert folded("Ärger's  Straße-3B") == ["arger", "s", "strasse", "3b"]


@cache
def said(kit: str, number: int) -> str:
    words: str = pypdfium2.PdfDocument(made(kit).file)[number - 1].get_textpage().get_text_range()
    return words


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_pages_of_a_piece_name_it_by_its_label(kit: str) -> None:
    one = made(kit)
    held = 0
    for thing in things_of(one.resolved, one.laid):
        if thing.kind is not ThingKind.PIECE or not thing.labels:
            continue
        for page in (*thing.sorted, *thing.used):
            text = said(kit, page)
            assert any(label in text for label in thing.labels), (thing, page)
            held += 1
        for page in thing.cut:
            assert any(label.lstrip("0123456789") in said(kit, page) for label in thing.labels)
    assert held > 60


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_every_piece_that_is_cut_and_used_has_all_its_pages(kit: str) -> None:
    one = made(kit)
    cut = {sheet.sheet.id for sheet in one.resolved.sheets if sheet.stages}
    found = {label: thing for thing in things_of(one.resolved, one.laid) for label in thing.labels}
    for entry in one.resolved.ledger.entries:
        if entry.piece is None or entry.use is None:
            continue
        thing = found[entry.label]
        layout = one.resolved.kit.layouts[entry.use.layout_index].id
        pages = {
            number
            for number, page in enumerate(one.laid.pages, 1)
            if any(part.section.anchor == f"layout-{layout}" for part in page.parts)
        }
        assert pages & set(thing.used)
        assert thing.sorted
        assert bool(thing.cut) is (one.resolved.kit.sheets[entry.piece.sheet_index].id in cut)


def test_a_member_is_told_the_page_in_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "hill-line", "Badge", "mats"]) == 0
    assert capsys.readouterr().out == (
        "pages 13, 22, 23, 30, 33, 34  5H, 5J, 5K  piece badge mat: cut on 13, sorted on 22, 23, "
        "used on 30, 33, 34\n"
    )


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("pocket 3", "pocket 3: sorted on 22, used on 30, 31"),
        ("sheet 2", "2  sheet Station canopy: cut on 8, 9"),
        ("summit", "7  layout Summit: sorted on 23, used on 32"),
        ("ribbon", "supply Signal red ribbon: used on 26, 27, 30, 35"),
    ],
)
def test_a_pocket_a_sheet_a_layout_and_a_supply_are_found(asked: str, found: str) -> None:
    one = made("hill-line")
    assert found in told(look_up(things_of(one.resolved, one.laid), asked)[0])


def test_what_is_nowhere_is_told_with_the_nearest_names(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "hill-line", "wombat"]) == 1
    assert capsys.readouterr().out.startswith('nothing is called "wombat"; the nearest names: ')


def test_nothing_asked_for_is_a_wrong_call(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "hill-line"]) == 2
    assert "--index" in capsys.readouterr().err


@pytest.mark.parametrize("asked", [".*", " ", "(", "-"])
def test_what_has_no_letter_names_nothing(asked: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "hill-line", asked]) == 2
    assert "expected a name or part of one" in capsys.readouterr().err


def test_words_may_stand_after_an_option(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "roof-garden", "--json", "fence"]) == 0
    after = capsys.readouterr().out
    assert main(["find", "roof-garden", "fence", "--json"]) == 0
    assert capsys.readouterr().out == after


def test_a_reading_file_that_is_not_there_is_called_that(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert main(["find", str(tmp_path / "kit-read.pdf"), "fence"]) == 2
    assert capsys.readouterr().err == "booklet: cannot read kit-read.pdf: No such file or directory\n"


def test_what_a_program_reads_hangs_on_no_letter_of_the_terminal(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    kit = tmp_path / "kit.yaml"
    kit.write_text(STARTER_SPEC.replace("title block", "tête"), encoding="utf-8")
    assert main(["find", str(kit), "tête", "--json"]) == 0
    told = capsys.readouterr().out
    assert told.isascii()
    assert json.loads(told)["found"][0]["name"] == "tête"


def test_a_program_reads_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "roof-garden", "fence", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    (fence,) = (thing for thing in told["found"] if thing["name"] == "fence")
    assert fence["pages"] == sorted({*fence["cut"], *fence["sorted"], *fence["used"]})
    assert main(["find", "roof-garden", "wombat", "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["found"] == []
    assert len(told["nearest"]) == 3


def test_the_reading_file_alone_tells_as_much(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["find", "roof-garden", "fence"])
    spec = capsys.readouterr().out
    main(["find", str(saved(made("roof-garden").file, tmp_path)), "fence"])
    assert capsys.readouterr().out == spec


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_index_has_every_thing_in_the_order_of_the_alphabet(kit: str, tmp_path: Path) -> None:
    assert main(["find", kit, "--index", "--out", str(tmp_path)]) == 0
    reader = pypdf.PdfReader(tmp_path / f"{kit}-index.pdf")
    lines = [line.strip() for page in reader.pages for line in page.extract_text().splitlines()]
    things = things_of(made(kit).resolved, made(kit).laid)
    called = [
        f"Pocket {thing.name.text}" if thing.kind is ThingKind.POCKET else thing.name.text for thing in things
    ]
    rows = [line for line in lines if line in set(called)]
    assert Counter(rows) == Counter(called)
    assert [folded(row) for row in rows] == sorted(folded(row) for row in rows)


def test_a_file_of_another_version_may_have_other_pages(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    older = made("roof-garden").file.replace(b"/Keywords (edition ", b"/Keywords (edition 0")
    assert main(["find", str(saved(older, tmp_path)), "fence"]) == 0
    assert "was made by another version: its pages may be others" in capsys.readouterr().err
