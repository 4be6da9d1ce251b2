"""Only what this program wrote is replaced, and files that do not go together are told."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from argparse import Namespace
from hashlib import sha256
from pathlib import Path

import pytest

from booklet.cli import main
from booklet.cli.file_list import parse_list
from booklet.cli.starter import STARTER_SPEC
from booklet.cli.written import Stale, list_name, read_sets, stale_files, write_set
from booklet.kit.errors import UsageError

MAY = {"kit-read.pdf": b"pages of May", "kit-sorting.csv": b"table of May"}
JUNE = {"kit-read.pdf": b"pages of June", "kit-sorting.csv": b"table of June"}


def write(folder: Path, contents: dict[str, bytes], edition: str = "", *, replace: bool = False) -> None:
    write_set(Namespace(out=folder, replace=replace), "kit", contents, edition)


def files_in(folder: Path) -> dict[str, bytes]:
    """What lies in a folder, but for the list."""
    found = {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    found.pop(list_name("kit"), None)
    return found


# Whose file it is.


def test_what_an_earlier_run_wrote_is_replaced(tmp_path: Path) -> None:
    write(tmp_path, MAY)
    write(tmp_path, JUNE)
    assert files_in(tmp_path) == JUNE


@pytest.mark.parametrize("listed", [True, False])
def test_a_table_of_the_user_s_own_stays_and_nothing_is_written(listed: bool, tmp_path: Path) -> None:
    if listed:
        write(tmp_path, MAY)
    (tmp_path / "kit-sorting.csv").write_bytes(b"my own")
    before = files_in(tmp_path)
    with pytest.raises(UsageError, match=r"kit-sorting\.csv is not as this program wrote it.*--replace"):
        write(tmp_path, JUNE)
    assert files_in(tmp_path) == before
    write(tmp_path, JUNE, replace=True)
    assert files_in(tmp_path) == JUNE
    write(tmp_path, MAY)
    assert files_in(tmp_path) == MAY


def test_a_file_that_is_as_it_would_be_written_is_no_hindrance(tmp_path: Path) -> None:
    (tmp_path / "kit-read.pdf").write_bytes(JUNE["kit-read.pdf"])
    write(tmp_path, JUNE)
    write(tmp_path, MAY)
    assert files_in(tmp_path) == MAY


def test_a_link_is_never_taken_for_a_file_of_ours(tmp_path: Path) -> None:
    write(tmp_path / "out", MAY)
    (tmp_path / "elsewhere.csv").write_bytes(MAY["kit-sorting.csv"])
    (tmp_path / "out/kit-sorting.csv").unlink()
    (tmp_path / "out/kit-sorting.csv").symlink_to(tmp_path / "elsewhere.csv")
    with pytest.raises(UsageError, match="kit-sorting"):
        write(tmp_path / "out", JUNE)
    assert (tmp_path / "elsewhere.csv").read_bytes() == MAY["kit-sorting.csv"]


def test_many_files_of_others_are_counted(tmp_path: Path) -> None:
    contents = {f"figures/kit-{number}.svg": b"<svg/>" for number in range(9)}
    (tmp_path / "figures").mkdir()
    for name in contents:
        (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(UsageError, match=r"kit-2\.svg and 6 more are not as this program wrote them"):
        write(tmp_path, contents)


@pytest.mark.parametrize(
    "text",
    [
        b"my own list\n",
        b"",
        b"\xff\xfe",
        b"# kit-booklet 1 wrote set 0123456789ab\n" + b"0" * 64 + b"  ../kit-read.pdf\n",
        b"# kit-booklet 1 wrote set 0123456789ab\n" + b"0" * 64 + b"  /etc/passwd\n",
    ],
)
def test_a_list_that_is_none_of_ours_is_not_replaced_either(text: bytes, tmp_path: Path) -> None:
    (tmp_path / list_name("kit")).write_bytes(text)
    with pytest.raises(UsageError, match=r"kit-files\.sha256 is no list of files of this program"):
        write(tmp_path, MAY)
    assert (tmp_path / list_name("kit")).read_bytes() == text
    write(tmp_path, MAY, replace=True)
    assert [each.digests.keys() for each in read_sets(tmp_path, "kit")] == [MAY.keys()]


# The list.


@pytest.mark.skipif(not shutil.which("sha256sum"), reason="sha256sum is not here")
def test_sha256sum_reads_the_list(tmp_path: Path) -> None:
    odd = {"figures/kit-über all.svg": b"<svg/>", "kit\\-a\nb.csv": b"table", "kit.pdf": b"pages"}
    write(tmp_path, odd, "0123456789ab")
    checked = ["sha256sum", "--check", "--strict", "--quiet", list_name("kit")]
    assert subprocess.run(checked, cwd=tmp_path, capture_output=True).returncode == 0
    (tmp_path / "kit.pdf").write_bytes(b"other pages")
    assert subprocess.run(checked, cwd=tmp_path, capture_output=True).returncode == 1
    (only,) = read_sets(tmp_path, "kit")
    assert only.digests == {name: sha256(content).hexdigest() for name, content in odd.items()}


def test_the_same_files_are_listed_alike_in_whatever_order_they_are_written(tmp_path: Path) -> None:
    black = {"kit-black-read.pdf": b"in black"}
    write(tmp_path / "a", MAY)
    write(tmp_path / "a", black)
    write(tmp_path / "b", black)
    write(tmp_path / "b", MAY)
    one, other = ((tmp_path / each / list_name("kit")).read_bytes() for each in "ab")
    assert one == other
    assert len(parse_list(one.decode())) == 2


def test_what_is_written_anew_or_gone_leaves_the_list(tmp_path: Path) -> None:
    write(tmp_path, {**MAY, "kit-press.pdf": b"press"})
    (tmp_path / "kit-press.pdf").unlink()
    write(tmp_path, JUNE)
    (left,) = read_sets(tmp_path, "kit")
    assert left.digests.keys() == JUNE.keys()


# What does not go together.


def test_files_of_an_earlier_edition_are_told_apart(tmp_path: Path) -> None:
    write(tmp_path, {"kit-press.pdf": b"press of May"}, "aaaaaaaaaaaa")
    write(tmp_path, {"kit-template-tag.pdf": b"a template"})
    write(tmp_path, {"kit-black-read.pdf": b"June in black"}, "bbbbbbbbbbbb-black")
    write(tmp_path, JUNE, "bbbbbbbbbbbb")
    assert stale_files(tmp_path, "kit", "bbbbbbbbbbbb") == {"kit-press.pdf": Stale.EARLIER}


def test_a_file_that_was_brought_from_elsewhere_is_told(tmp_path: Path) -> None:
    write(tmp_path, JUNE, "bbbbbbbbbbbb")
    (tmp_path / "kit-read.pdf").write_bytes(MAY["kit-read.pdf"])
    assert stale_files(tmp_path, "kit", "bbbbbbbbbbbb") == {"kit-read.pdf": Stale.CHANGED}


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot copy a process")
@pytest.mark.parametrize("after", range(1, 5))
def test_a_run_that_is_killed_while_it_renames_leaves_files_that_are_known(
    after: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path, MAY, "aaaaaaaaaaaa")
    replace, calls = os.replace, []

    def replace_some(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) > after:
            os._exit(9)  # as if killed: nothing is tidied
        replace(source, target)

    if (child := os.fork()) == 0:
        monkeypatch.setattr(os, "replace", replace_some)
        try:
            write(tmp_path, JUNE, "aaaaaaaaaaaa")
        finally:
            os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == (9 if after < 4 else 0)
    stale = stale_files(tmp_path, "kit", "aaaaaaaaaaaa")
    assert set(stale.values()) == ({Stale.MIXED} if after < 4 else set())
    write(
        tmp_path, {**JUNE, "kit-read.pdf": b"pages of July"}, "aaaaaaaaaaaa"
    )  # all of them are known as ours
    assert stale_files(tmp_path, "kit", "aaaaaaaaaaaa") == {}


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    file = tmp_path / "kit.yaml"
    file.write_text(STARTER_SPEC)
    return file


def test_make_says_what_of_the_folder_is_of_another_edition(
    spec: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["make", str(spec), "--black", "--out", str(out)]) == 0
    spec.write_text(STARTER_SPEC.replace("title: First kit", "title: Second kit"))
    capsys.readouterr()
    assert main(["make", str(spec), "--out", str(out)]) == 0
    told = (
        f"{out} also holds kit-black-print.pdf and kit-black-read.pdf: of another edition than the kit is now"
    )
    assert told in capsys.readouterr().err.splitlines()


def test_the_proof_says_what_of_the_folder_is_not_as_it_was_made(
    spec: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["make", str(spec), "--out", str(out)]) == 0
    with (out / "kit-print.pdf").open("ab") as stream:
        stream.write(b"\n")
    capsys.readouterr()
    assert main(["proof", str(spec), "--json", "--out", str(out)]) == 0
    assert json.loads(capsys.readouterr().out)["stale"] == {"kit-print.pdf": Stale.CHANGED.value}
    assert main(["proof", str(spec), "--out", str(out)]) == 0
    told = f"{out} also holds kit-print.pdf: {Stale.CHANGED.value}"
    assert told in capsys.readouterr().out.splitlines()
