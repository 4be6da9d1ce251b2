"""`booklet make` and `draw`: what they write, what they refuse; the same kit gives the same bytes."""

from __future__ import annotations

import csv
import os
import subprocess
import sys
from argparse import Namespace
from pathlib import Path
from xml.etree import ElementTree

import pypdfium2 as pdfium
import pytest

from booklet.cli import main
from booklet.cli.files import file_names
from booklet.cli.starter import STARTER_SPEC
from booklet.cli.written import list_name, write_set
from tests.cli.kits import BREAKS, SPECS, Break, Broken, sound_copy
from tests.cli.runs import SMALL_SPEC
from tests.once import shared_by_commands

ROOT = Path(__file__).parents[2]
SMALLER = "roof-garden"
READ, PRINT = f"{SMALLER}-read.pdf", f"{SMALLER}-print.pdf"
TABLES = [f"{SMALLER}-sorting.csv", f"{SMALLER}-supplies.csv"]
# Errors in the kit itself, which a draft shows; of a spec that cannot be read there is nothing to show.
WORKABLE = [one for one in BREAKS if one.says.split(":")[0].replace("-", "").isalpha()]


ONE_AND_THE_OTHERS = [
    WORKABLE[0],
    *(pytest.param(one, marks=pytest.mark.thorough) for one in WORKABLE[1:]),
]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the smaller demo kit was made."""
    out = tmp_path_factory.mktemp("made")
    with shared_by_commands():
        assert main(["make", SMALLER, "--out", str(out)]) == 0
    return out


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, by its name from there."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_make_writes_what_the_readme_says(made: Path) -> None:
    files = set(contents(made))
    figures = {name for name in files if name.startswith(f"figures{os.sep}{SMALLER}-")}
    assert files - figures == {READ, PRINT, *TABLES, list_name(SMALLER)}
    assert len(figures) > 10


def test_the_two_pdfs_hold_the_same_pages(made: Path) -> None:
    pages = len(pdfium.PdfDocument(made / READ))
    assert len(pdfium.PdfDocument(made / PRINT)) * 2 == pages


def test_the_tables_can_be_read(made: Path) -> None:
    for name in TABLES:
        rows = list(csv.reader((made / name).read_text(encoding="utf-8").splitlines()))
        assert len(rows) > 2
        assert {len(row) for row in rows} == {len(rows[0])}


def test_every_figure_is_an_svg_with_a_title_and_a_description(made: Path) -> None:
    svg = "{http://www.w3.org/2000/svg}"
    for path in (made / "figures").glob("*.svg"):
        root = ElementTree.parse(path).getroot()
        assert root.tag == f"{svg}svg"
        assert file_names([f"{SMALLER}-{root.findtext(f'{svg}title')}"]) == [path.stem]
        assert root.findtext(f"{svg}desc")


@pytest.mark.usefixtures("made_afresh")
def test_draw_writes_the_same_figures_as_make(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["draw", SMALLER, "--out", str(tmp_path)]) == 0
    figures = {name: data for name, data in contents(made).items() if name.endswith(".svg")}
    drawn = contents(tmp_path)
    del drawn[list_name(SMALLER)]
    assert drawn == figures
    assert capsys.readouterr().out == (f"{tmp_path / 'figures'}: {len(figures)} figures\n")


def test_each_file_is_reported_where_it_was_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["make", SMALLER]) == 0
    out, err = capsys.readouterr()
    files = [READ, PRINT, *TABLES]
    assert out.splitlines()[: len(files)] == [os.path.join("out", name) for name in files]
    assert all((tmp_path / "out" / name).is_file() for name in files)
    assert str(tmp_path) not in out + err


def test_figures_of_an_earlier_run_are_left_and_reported(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "figures"
    folder.mkdir()
    (folder / f"{SMALLER}-sheet-99-stage-1.svg").write_text("of a sheet that is no more")
    assert main(["draw", SMALLER, "--out", str(tmp_path)]) == 0
    assert f"not of this run: {SMALLER}-sheet-99-stage-1.svg\n" in capsys.readouterr().err
    assert (folder / f"{SMALLER}-sheet-99-stage-1.svg").exists()


# A kit with errors.


@pytest.mark.parametrize("one", WORKABLE, ids=lambda one: one.name)
def test_make_writes_nothing_while_there_are_errors(
    one: Break, broken: Broken, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = broken(one)
    out = tmp_path / "out"
    assert main(["make", str(spec), "--out", str(out)]) == 1
    told, err = capsys.readouterr()
    assert told == ""
    assert one.says in err
    assert err.endswith("Nothing was written: mend the errors, or see it as it is with --draft.\n")
    assert not out.exists()


@pytest.mark.parametrize("key", ["title: First kit", "publisher: Your name here"])
def test_words_that_leave_no_room_on_a_cover_are_refused_with_their_line(
    key: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = tmp_path / "kit.yaml"
    line = next(at for at, typed in enumerate(STARTER_SPEC.splitlines(), 1) if typed.startswith(key))
    name = key.partition(":")[0]
    spec.write_text(STARTER_SPEC.replace(key, f"{name}: {'Long ' * 390}"), encoding="utf-8")
    assert main(["make", str(spec), "--out", str(tmp_path / "out")]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"kit.yaml:{line}: {name}: found Long Long")
    assert "words of at most 100 letters" in err
    assert not (tmp_path / "out").exists()


def test_a_draft_of_a_kit_with_errors_is_written_marked_and_still_ends_with_1(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = tmp_path / "kit.yaml"
    spec.write_text(SMALL_SPEC.replace("place: strip", "place: stripe"), encoding="utf-8")
    assert main(["make", str(spec), "--draft", "--out", str(tmp_path)]) == 1
    assert "piece-not-made" in capsys.readouterr().err
    document = pdfium.PdfDocument(tmp_path / "kit-read.pdf")
    assert all("DRAFT" in page.get_textpage().get_text_range() for page in document)


@pytest.mark.parametrize("one", ONE_AND_THE_OTHERS, ids=lambda one: one.name)
def test_the_figures_of_a_kit_with_errors_can_be_seen(one: Break, broken: Broken, tmp_path: Path) -> None:
    spec = broken(one)
    assert main(["draw", str(spec), "--out", str(tmp_path)]) == 1
    assert list((tmp_path / "figures").glob("*.svg"))


def test_what_stops_make_leaves_the_files_of_the_last_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written = {READ: b"pages of May", f"{SMALLER}-sorting.csv": b"table of May"}
    write_set(Namespace(out=tmp_path, replace=False), SMALLER, written)
    before = contents(tmp_path)
    replace, calls = os.replace, []

    def stop_at_the_third(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) == 3:
            raise KeyboardInterrupt
        replace(source, target)

    monkeypatch.setattr(os, "replace", stop_at_the_third)
    assert main(["make", SMALLER, "--out", str(tmp_path)]) == 130
    assert contents(tmp_path) == before


# The same kit, the same bytes.


@pytest.mark.usefixtures("made_afresh")
def test_the_same_kit_gives_the_same_bytes(made: Path, tmp_path: Path) -> None:
    assert main(["make", SMALLER, "--out", str(tmp_path)]) == 0
    assert contents(tmp_path) == contents(made)


@pytest.mark.parametrize(
    "demo", [pytest.param("hill-line.yaml", marks=pytest.mark.thorough), f"{SMALLER}.yaml"]
)
def test_another_process_folder_language_clock_and_hash_seed_give_the_same_bytes(
    demo: str, tmp_path: Path
) -> None:
    """Both ways of making it differ in everything that must not matter."""
    here = sound_copy(tmp_path / "here", SPECS / demo)
    there = sound_copy(tmp_path / "a folder with another name" / "june", SPECS / demo)
    _make_elsewhere(
        here, tmp_path / "one", ROOT, PYTHONHASHSEED="1", TZ="UTC", LC_ALL="C", SOURCE_DATE_EPOCH="86400"
    )
    _make_elsewhere(
        there, tmp_path / "other", there.parent, PYTHONHASHSEED="77", TZ="Asia/Tokyo", LC_ALL="de_DE.UTF-8"
    )
    one, other = contents(tmp_path / "one"), contents(tmp_path / "other")
    assert len(one) > 20
    assert [name for name in one if one[name] != other.get(name)] == []
    assert one.keys() == other.keys()


def _make_elsewhere(spec: Path, out: Path, folder: Path, **settings: str) -> None:
    subprocess.run(
        [sys.executable, "-m", "booklet", "make", str(spec), "--out", str(out)],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), **settings},
        capture_output=True,
        check=True,
    )


def test_no_table_or_figure_names_a_folder_of_this_computer(made: Path) -> None:
    for name, data in contents(made).items():
        assert str(ROOT).encode() not in data, name
        assert str(made).encode() not in data, name


def test_what_no_page_holds_is_told_with_its_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from booklet.pages import booklet as laying
    from booklet.pages.flow import PageOverflowError

    def refuse(*_: object) -> None:
        raise PageOverflowError("First page: its words are more than a page", ("layouts", 0, "title"))

    monkeypatch.setattr(laying, "make_booklet", refuse)
    spec = tmp_path / "kit.yaml"
    spec.write_text(STARTER_SPEC, encoding="utf-8")
    line = next(at for at, typed in enumerate(STARTER_SPEC.splitlines(), 1) if "title: First page" in typed)
    assert main(["make", str(spec), "--out", str(tmp_path / "out")]) == 1
    assert (
        capsys.readouterr().err == f"booklet: kit.yaml:{line}: First page: its words are more than a page\n"
    )
    assert not (tmp_path / "out").exists()
