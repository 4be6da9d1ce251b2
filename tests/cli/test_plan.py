"""`booklet plan`: steps ready to paste, and steps put into the file, which is else left as it is."""

from __future__ import annotations

import difflib
import errno
import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from booklet.cli import main
from booklet.kit.load import load_kit, parse_kit
from tests.cli.kits import LARGER, sound_copy
from tests.cutting.planner.tired import tire

WINDOW = """\
# A window, its cuts left to the planner.
title: By the window
publisher: A small press
sheet: 12 x 12
papers:
  fern: {front: {pattern: leaves, colours: ["#2f5d50", "#7fa38a"]}}
  sand: {front: {colours: ["#f1e7d6"]}}
sheets:
  - id: fern
    paper: fern
    cuts: plan   # not yet   \n\
    sizes: {edge strip: 2 1/2 x 12, wide strip: 3 x 12,   panel: 6 1/2 x 8}   # said
  - {id: mats, cuts:  plan  , paper: sand, sizes: {mat: 4 x 6}, spare: [mat, mat, mat]}
  - {id: sand, paper: sand}
layouts:
  - id: window
    pocket: 1
    base: sand
    steps:
      - {place: edge strip, left: 0, top: 0}
      - {place: wide strip, right: 0, top: 0}
      - {place: panel, left: 2 1/2, top: 2}
      - {photo: 3 x 4, on: panel}
      - {place: mat, right: 0, bottom: 0}
"""
FERN = """
      # 3 cuts, 3 settings, 1 turn; scrap 18.1 %, the largest piece 6 1/2 x 4
      - at: [9 1/2, 6 1/2]
        leaves: [strip 1, wide strip, edge strip]
      - take: strip 1
        turn: clockwise
        at: [8]
        leaves: [panel, scrap]"""
MATS = (
    "[{at: [8, 4], leaves: [strip 1, strip 1, scrap]}, "
    "{take: [strip 1, strip 1], turn: clockwise, at: [6], leaves: [mat, mat]}]"
)
# The whole change, and nothing beside it.
WRITTEN = WINDOW.replace("cuts: plan   # not yet   ", f"cuts:   # not yet   {FERN}").replace(
    "cuts:  plan  ,", f"cuts:  {MATS}  ,"
)


gives_away = pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only a superuser may give files away"
)


def spec_file(folder: Path, text: str = WINDOW) -> Path:
    file = folder / "window.yaml"
    file.write_bytes(text.encode())
    return file


def test_the_steps_are_printed_ready_to_paste(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = spec_file(tmp_path)
    assert main(["plan", str(file)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert out.startswith("# fern: 3 cuts, 3 settings, 1 turn; scrap 18.1 %, the largest piece 6 1/2 x 4\n")
    comment, *fern = FERN.splitlines()[1:]
    assert "\n".join(["    cuts:", *fern]) in out
    assert comment.strip(" #") in out
    assert out.endswith(f"\ncuts: {MATS}\n")
    assert file.read_bytes() == WINDOW.encode()


def test_what_is_printed_may_be_pasted_in_place_of_the_word(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["plan", str(spec_file(tmp_path))])
    printed = capsys.readouterr().out.splitlines()
    at = printed.index("    cuts:")
    pasted = WINDOW.replace("    cuts: plan   # not yet   ", "\n".join(printed[at : at + 7]))
    again = parse_kit(pasted.replace("cuts:  plan", printed[-1]), "window.yaml", tmp_path)
    assert again.kit == parse_kit(WRITTEN, "window.yaml", tmp_path).kit


def test_a_kit_with_planned_cuts_is_checked_and_made_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(spec_file(tmp_path))]) == 0
    assert capsys.readouterr().out == "nothing wrong\n"
    assert main(["make", str(tmp_path / "window.yaml"), "--out", str(tmp_path / "planned")]) == 0
    spec_file(tmp_path, WRITTEN)
    assert main(["make", str(tmp_path / "window.yaml"), "--out", str(tmp_path / "written")]) == 0
    for one in sorted((tmp_path / "planned").rglob("*.*")):
        if one.name in ("window-read.pdf", "window-files.sha256"):
            continue  # it carries the spec as it was typed, or lists what does
        other = tmp_path / "written" / one.relative_to(tmp_path / "planned")
        assert one.read_bytes() == other.read_bytes(), one.name


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_writing_changes_the_word_plan_and_no_other_byte(
    tmp_path: Path, ending: str, mark: bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "window.yaml"
    file.write_bytes(mark + WINDOW.replace("\n", ending).encode())
    assert main(["plan", str(file), "--write"]) == 0
    assert file.read_bytes() == mark + WRITTEN.replace("\n", ending).encode()
    assert capsys.readouterr().out == f"{file}: fern, mats\n"


def test_written_steps_are_those_that_were_planned(tmp_path: Path) -> None:
    from booklet.cutting.planner.kit_plan import plan_kit

    file = spec_file(tmp_path)
    planned = plan_kit(load_kit(file).kit).kit
    main(["plan", str(file), "--write"])
    assert load_kit(file).kit == planned
    assert main(["plan", str(file), "--write"]) == 0
    assert file.read_bytes() == WRITTEN.encode()


def test_a_large_kit_keeps_every_other_line(tmp_path: Path) -> None:
    spec = sound_copy(tmp_path)
    text = spec.read_text(encoding="utf-8")
    start = text.index("    cuts:\n      - at: [9, 6, 4 1/2, 3, 1 1/2]")
    end = text.index("    sizes: {trunk: 3 x 12")
    asked = text[:start] + "    cuts: plan\n" + text[end:]
    spec.write_text(asked, encoding="utf-8")
    assert main(["plan", str(spec), "--write"]) == 0
    changes = [
        line
        for line in difflib.ndiff(asked.splitlines(), spec.read_text(encoding="utf-8").splitlines())
        if line[0] in "+-"
    ]
    assert changes[0] == "-     cuts: plan"
    assert [line[0] for line in changes[1:]] == ["+"] * 7
    assert main(["check", str(spec)]) == 0


def test_the_last_line_needs_no_end(tmp_path: Path) -> None:
    head, sheets = WINDOW.split("sheets:\n")
    fern, layouts = sheets.split("layouts:\n")
    fern = fern.replace("    cuts: plan   # not yet   \n", "")
    fern, mats = fern.split("  - {id: mats")
    text = f"{head}layouts:\n{layouts}sheets:\n  - {{id: mats{mats}{fern}    cuts: plan"
    file = spec_file(tmp_path, text)
    assert main(["plan", str(file), "--write"]) == 0
    written = file.read_text(encoding="utf-8")
    assert written.endswith(f"    cuts:{FERN}")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("    cuts: plan   # not yet   \n", "    cuts: &left plan\n"),
        ("cuts:  plan  ,", "cuts: !!str plan,"),
    ],
)
def test_a_word_that_is_not_typed_plainly_is_left_alone(
    tmp_path: Path, old: str, new: str, capsys: pytest.CaptureFixture[str]
) -> None:
    text = WINDOW.replace(old, new)
    file = spec_file(tmp_path, text)
    assert main(["plan", str(file), "--write"]) == 2
    assert "write it out there" in capsys.readouterr().err
    assert file.read_bytes() == text.encode()


def test_a_sheet_that_cannot_be_planned_leaves_the_file_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = WINDOW.replace("panel: 6 1/2 x 8", "panel: 6 7/8 x 8")
    file = spec_file(tmp_path, text)
    assert main(["plan", str(file), "--write"]) == 1
    err = capsys.readouterr().err
    assert "Nothing was written" in err
    assert "window.yaml:11: error plan-impossible" in err
    assert file.read_bytes() == text.encode()


NINE = """\
    sizes: {a: 3 x 2, b: 4 x 3, c: 5 x 4, d: 3 x 5, e: 4 x 2, f: 5 x 3, g: 3 x 4, h: 4 x 5, i: 5 x 2}
    spare: [a, b, c, d, e, f, g, h, i]"""


# That these do not go on one sheet is a long proof.
ELEVEN = """\
    sizes: {a: 4 1/2 x 1 1/2, b: 5 1/2 x 3 1/2, c: 5 1/2 x 4 1/2, d: 3 1/2 x 3, e: 2 1/2 x 4, f: 3 x 2 1/2,
            g: 4 1/2 x 5, h: 2 1/2 x 2 1/2, i: 2 x 4 1/2, j: 5 1/2 x 2, k: 3 x 3 1/2}
    spare: [a, b, c, d, e, f, g, h, i, j, k]"""


def plain_with(pieces: str) -> str:
    head, sheets = WINDOW.split("    cuts: plan   # not yet   \n")
    rest = sheets[sheets.index("  - {id: mats") :]
    return f"{head}    cuts: plan\n{pieces}\n{rest}".replace("paper: fern", "paper: sand")


def test_cuts_not_proved_the_fewest_are_said_to_be_the_best_found(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    tire(monkeypatch, 400_000)
    file = spec_file(tmp_path, plain_with(NINE))
    assert main(["plan", str(file)]) == 0
    fern, mats = [line for line in capsys.readouterr().out.splitlines() if line.startswith("#")]
    assert fern.startswith("# fern: ")
    assert fern.endswith("; the best found, not proved the fewest cuts")
    assert "best found" not in mats


def test_the_best_found_is_printed_where_it_does_not_give_all_pieces(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    tire(monkeypatch, 700_000)
    file = spec_file(tmp_path, plain_with(ELEVEN))
    assert main(["plan", str(file)]) == 1
    out, err = capsys.readouterr()
    assert out.splitlines()[0].endswith("; the best found, it does not give all pieces")
    named = [
        name
        for line in out.splitlines()
        if "leaves:" in line
        for name in line.split("[")[1].rstrip("]").split(", ")
    ]
    assert sorted(name for name in named if len(name) == 1) == list("abcdefgijk")
    said, number = err.splitlines()
    assert 'error plan-not-found: no cuts were found for all pieces; the best found leaves out "h"' in said
    assert number == "1 error"
    assert main(["plan", str(file), "--write"]) == 1
    assert file.read_bytes() == plain_with(ELEVEN).encode()


def test_a_file_keeps_who_may_read_it_and_a_link_stays_one(tmp_path: Path) -> None:
    file = spec_file(tmp_path)
    file.chmod(0o640)
    link = tmp_path / "link.yaml"
    link.symlink_to(file.name)
    assert main(["plan", str(link), "--write"]) == 0
    assert link.is_symlink()
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert file.read_bytes() == WRITTEN.encode()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["link.yaml", "window.yaml"]


def test_a_read_only_file_is_left_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = spec_file(tmp_path)
    file.chmod(0o444)
    assert main(["plan", str(file), "--write"]) == 2
    assert "is read-only; it is left as it is" in capsys.readouterr().err
    assert file.read_bytes() == WINDOW.encode()
    assert [path.name for path in tmp_path.iterdir()] == ["window.yaml"]


def test_a_file_keeps_what_is_noted_on_it(tmp_path: Path) -> None:
    file = spec_file(tmp_path)
    try:
        os.setxattr(file, "user.proofed-by", b"the designer")
    except (AttributeError, OSError):
        pytest.skip("this system has no extended attributes here")
    assert main(["plan", str(file), "--write"]) == 0
    assert file.read_bytes() == WRITTEN.encode()
    assert os.getxattr(file, "user.proofed-by") == b"the designer"


@gives_away
def test_a_file_of_another_user_stays_that_user_s(tmp_path: Path) -> None:
    file = spec_file(tmp_path)
    os.chown(file, 12345, 23456)
    file.chmod(0o664)
    assert main(["plan", str(file), "--write"]) == 0
    found = file.stat()
    assert (found.st_uid, found.st_gid, stat.S_IMODE(found.st_mode)) == (12345, 23456, 0o664)


@gives_away
@pytest.mark.parametrize(
    ("refused", "why"),
    [
        (0, "it belongs to another user"),
        (1, "it belongs to a group that this user cannot give files to"),
    ],
)
def test_a_file_that_cannot_stay_whose_it_is_is_left_alone(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    refused: int,
    why: str,
) -> None:
    """As an ordinary user finds it: the file can be read, the folder written, and the owner not be given."""
    file = spec_file(tmp_path)
    os.chown(file, 12345, 23456)

    def chown(_: Path, *ids: int) -> None:
        if ids[refused] != -1:
            raise PermissionError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "chown", chown)
    assert main(["plan", str(file), "--write"]) == 2
    assert why in capsys.readouterr().err
    assert file.read_bytes() == WINDOW.encode()
    assert [path.name for path in tmp_path.iterdir()] == ["window.yaml"]


def test_a_file_that_changes_meanwhile_is_left_as_it_is(tmp_path: Path) -> None:
    from booklet.cli.files import rewrite
    from booklet.kit.errors import UsageError

    file = tmp_path / "kit.yaml"
    file.write_bytes(b"newer")
    with pytest.raises(UsageError, match="changed meanwhile"):
        rewrite(file, b"old", b"planned")
    assert file.read_bytes() == b"newer"


def test_written_cuts_are_planned_too_where_that_is_asked(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(LARGER), "--all"]) == 0
    out = capsys.readouterr().out
    assert "# iron: 11 cuts, 11 settings, 1 turn; scrap 1.7 %, the largest piece 3 1/4 x 1/4\n" in out
    assert "# hills: as written; it is printed with a picture" in out
    assert "# tickets: as written; it is cut between its printed elements\n" in out


def test_printed_borders_stay_with_their_pieces(capsys: pytest.CaptureFixture[str]) -> None:
    """Both canopies of the larger demo are cut with the scallops printed along their edges."""
    main(["plan", str(LARGER), "--all"])
    out = capsys.readouterr().out
    assert "leaves: [left canopy, strip 1, right canopy]\n" in out


def test_a_kit_without_a_sheet_to_plan_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(LARGER)]) == 0
    out, err = capsys.readouterr()
    assert out == ""
    assert "--all" in err


def test_sheets_of_one_paper_share_their_pieces_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = WINDOW.replace("{id: mats, cuts:  plan  , paper: sand", "{id: mats, cuts:  plan  , paper: fern")
    text = text.replace("spare: [mat, mat, mat]", "spare: [mat, mat, mat, mat]")
    assert main(["plan", "--together", str(spec_file(tmp_path, text))]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    lines = out.splitlines()
    assert lines[0] == "# fern: 2 of 2 sheets; fewer cannot do"
    assert [line.strip().split(":")[0] for line in lines if "sizes: {" in line] == ["sizes", "sizes"]
    stated = [line.split("{")[1].rstrip("}") for line in lines if "sizes: {" in line]
    names = sorted(said.split(":")[0] for line in stated for said in line.split(", "))
    assert names == ["edge strip", "mat", "panel", "wide strip"]


def test_a_kit_with_nothing_to_share_out_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--together", str(spec_file(tmp_path))]) == 0
    assert capsys.readouterr().err == "no paper has two sheets that say cuts: plan\n"


def test_who_waits_at_a_terminal_sees_which_sheet_is_planned(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told: list[str] = []

    @contextmanager
    def terminal() -> Iterator[Callable[[str], None]]:
        yield told.append

    monkeypatch.setattr("booklet.cli.progress.progress", terminal)
    assert main(["check", str(spec_file(tmp_path))]) == 0
    assert told == ["Planning the cuts of fern, 1 of 2", "Planning the cuts of mats, 2 of 2"]
    capsys.readouterr()
    assert main(["plan", str(spec_file(tmp_path))]) == 0
    assert told[2:] == told[:2]
    assert "Planning" not in "".join(capsys.readouterr())
