"""Files are written whole or not at all, and several of them all or none."""

from __future__ import annotations

import os
import stat
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from booklet.cli import files
from booklet.cli.files import file_names, write_files
from booklet.cli.unstopped import unstopped
from booklet.kit.errors import UsageError


def everything(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, hidden ones too."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_files_and_folders_are_made_as_named(tmp_path: Path) -> None:
    written = write_files(tmp_path / "june" / "out", {"kit.pdf": b"pages", "figures/sheet-1.svg": b"lines"})
    assert written == (tmp_path / "june/out/kit.pdf", tmp_path / "june/out/figures/sheet-1.svg")
    assert everything(tmp_path) == {"june/out/kit.pdf": b"pages", "june/out/figures/sheet-1.svg": b"lines"}


def test_what_was_there_is_replaced_and_all_else_left(tmp_path: Path) -> None:
    (tmp_path / "kit.pdf").write_bytes(b"old")
    (tmp_path / "letter.txt").write_bytes(b"mine")
    write_files(tmp_path, {"kit.pdf": b"new"})
    assert everything(tmp_path) == {"kit.pdf": b"new", "letter.txt": b"mine"}


def test_others_may_read_a_file_as_any_that_the_user_makes(tmp_path: Path) -> None:
    (tmp_path / "made").write_bytes(b"")
    write_files(tmp_path, {"written": b""})
    modes = {stat.S_IMODE((tmp_path / name).stat().st_mode) for name in ("made", "written")}
    assert len(modes) == 1


@pytest.mark.parametrize("stopped_by", [OSError(28, "No space left on device"), KeyboardInterrupt()])
@pytest.mark.parametrize("after", [0, 1, 2])
def test_what_stops_half_way_leaves_what_was_there(
    stopped_by: BaseException, after: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = {"a.pdf": b"old a", "c.pdf": b"old c"}
    write_files(tmp_path, before)
    replace, calls = os.replace, []

    def replace_some(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) == after + 1:
            raise stopped_by
        replace(source, target)

    monkeypatch.setattr(os, "replace", replace_some)
    with pytest.raises(UsageError if isinstance(stopped_by, OSError) else KeyboardInterrupt):
        write_files(tmp_path, {"a.pdf": b"new a", "b.pdf": b"new b", "c.pdf": b"new c"})
    assert len(calls) > after
    assert everything(tmp_path) == before


@pytest.mark.parametrize("moment", range(3))
def test_a_stop_just_before_it_is_held_back_leaves_nothing_aside(
    moment: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = list[int]()

    def too_late() -> AbstractContextManager[list[int]]:
        asked.append(len(asked))
        if asked[-1] == moment:
            raise KeyboardInterrupt
        return unstopped()

    monkeypatch.setattr(files, "unstopped", too_late)
    with pytest.raises(KeyboardInterrupt):
        write_files(tmp_path, {"a.txt": b"a", "b.txt": b"b"})
    left = {path.name for path in tmp_path.iterdir()}
    assert left == ({"a.txt", "b.txt"} if moment == 2 else set())  # by then all had taken their names


def test_a_disk_that_fills_up_leaves_what_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = {"a.pdf": b"old a"}
    write_files(tmp_path, before)
    write_bytes = Path.write_bytes

    def write_half(path: Path, content: bytes) -> int:
        if content == b"new b":
            write_bytes(path, content[:2])
            raise OSError(28, "No space left on device")
        return write_bytes(path, content)

    monkeypatch.setattr(Path, "write_bytes", write_half)
    with pytest.raises(UsageError, match="cannot be written: no space left on device"):
        write_files(tmp_path, {"a.pdf": b"new a", "b.pdf": b"new b"})
    assert everything(tmp_path) == before


def test_a_disk_without_second_names_keeps_its_files_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_names: Path, **_options: bool) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    write_files(tmp_path, {"a.pdf": b"old a"})
    (tmp_path / "b.pdf").mkdir()
    with pytest.raises(UsageError, match="is a directory"):
        write_files(tmp_path, {"a.pdf": b"new a", "b.pdf": b"new b"})
    assert everything(tmp_path) == {"a.pdf": b"old a"}


def test_a_file_where_the_folder_should_be_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"a letter")
    with pytest.raises(UsageError, match="out cannot be written: file exists"):
        write_files(tmp_path / "out", {"kit.pdf": b"pages"})
    assert everything(tmp_path) == {"out": b"a letter"}


def test_a_folder_name_that_no_disk_takes_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="cannot be written"):
        write_files(tmp_path / "a\0b", {"kit.pdf": b"pages"})


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("layout-the-view-placing", "layout-the-view-placing"),
        ("layout-four cows & a cake", "layout-four-cows---a-cake"),
        ("layout-../../../etc/passwd", "layout----------etc-passwd"),
        ("layout-über_alle", "layout-über_alle"),
        (r"C:\kits", "C--kits"),
        ("a\0b", "a-b"),
    ],
)
def test_a_figure_s_file_name_leads_nowhere(said: str, name: str) -> None:
    assert file_names([said]) == [name]


def test_file_names_are_all_different() -> None:
    names = file_names(["dusk", "Dusk", "dusk", "dusk-2", "du/sk", "du sk"])
    assert names[0] == "dusk"
    assert len({name.casefold() for name in names}) == 6


def test_a_file_name_is_never_too_long(tmp_path: Path) -> None:
    names = file_names([f"layout-{'雲' * 90}-placing", f"layout-{'雲' * 90}-finished"])
    write_files(tmp_path, {f"{name}.svg": b"" for name in names})
    assert len(everything(tmp_path)) == 2
