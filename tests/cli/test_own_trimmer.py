"""A person's own trimmer: named with --trimmer, or kept where the platform keeps settings."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from booklet.cli import asked, main
from tests.cli.test_check_sheets import FERN
from tests.content.specs import DEMOS, SMALL

LEFT = "unit: in\nmark: 1/16\nhand: left\n"


@pytest.fixture
def kit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """A kit in the folder that one is in, and no trimmer of one's own."""
    monkeypatch.chdir(tmp_path)
    Path("kit.yaml").write_text(FERN, encoding="utf-8")
    return "kit.yaml"


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A trimmer of one's own, where settings are kept."""
    place = tmp_path / "settings" / "trimmer.yaml"
    place.parent.mkdir()
    place.write_text("hold: 7 in\n", encoding="utf-8")
    monkeypatch.setattr(asked, "own_place", lambda: place)
    return place


def mine(text: str) -> str:
    Path("mine.yaml").write_text(text, encoding="utf-8")
    return "mine.yaml"


def test_the_place_is_the_platforms(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # XDG Base Directory Specification 0.8: XDG_CONFIG_HOME holds a user's settings (from memory).
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    assert asked.own_place().name == "trimmer.yaml"
    assert asked.own_place().parent.name == "booklet"


@pytest.mark.parametrize(
    "command",
    [
        ["check", "--sheets"],
        ["check"],
        ["draw"],
        ["make", "--draft"],
        ["plan", "--all"],
        ["plan", "--review"],
        ["plan", "--together"],
        ["plan", "--write"],
        ["rescue", "--spoiled", "1A"],
    ],
    ids=" ".join,
)
def test_every_command_says_whose_trimmer_it_works_for(
    command: list[str], kit: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command[0], kit, *command[1:], "--trimmer", mine(LEFT)]) in (0, 1)
    assert capsys.readouterr().err.splitlines()[0] == "made for the trimmer of mine.yaml"


def test_what_the_kits_trimmer_can_do_ones_own_may_not(kit: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--sheets", kit]) == 0
    assert main(["check", "--sheets", kit, "--trimmer", mine("blade: 11 in\n")]) == 1
    assert "cut-longer-than-blade: the cut is 12 long. The blade cuts 11" in capsys.readouterr().out


def test_a_file_of_ones_own_is_taken_where_settings_are_kept(
    kit: str, own: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--sheets", kit]) == 1
    out, err = capsys.readouterr()
    assert "7 is the safe hold" in out
    assert err == f"made for the trimmer of {own}\n"


def test_a_named_file_comes_before_the_one_that_is_kept(
    kit: str, own: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--sheets", kit, "--trimmer", mine(LEFT)]) == 0
    assert str(own) not in capsys.readouterr().err


@pytest.mark.usefixtures("own")
def test_a_publisher_keeps_to_the_kits_trimmer(kit: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--sheets", kit, "--kit-trimmer"]) == 0
    assert capsys.readouterr().err == ""


def test_a_mistake_in_the_file_names_it_and_the_line(kit: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["make", kit, "--trimmer", mine("mark: 1/8 in\nhold: broad\n")]) == 1
    assert capsys.readouterr().err.startswith("mine.yaml:2: hold: found broad, expected a length")


def test_a_mistake_in_the_kept_file_names_it(kit: str, own: Path, capsys: pytest.CaptureFixture[str]) -> None:
    own.write_text("hand: both\n", encoding="utf-8")
    assert main(["check", kit]) == 1
    assert capsys.readouterr().out.startswith(f"{own}:1: hand: found both, expected right or left")


def test_a_file_that_is_not_there_ends_with_2(kit: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", kit, "--trimmer", "none.yaml"]) == 2
    assert capsys.readouterr().err == "booklet: there is no file none.yaml\n"


def test_one_cannot_name_a_file_and_keep_to_the_kits(kit: str) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["check", kit, "--trimmer", "mine.yaml", "--kit-trimmer"])
    assert ended.value.code == 2


def test_the_booklet_states_the_trimmer_that_it_is_made_for(kit: str, tmp_path: Path) -> None:
    assert main(["make", kit, "--draft", "--out", "usual"]) == 1
    assert main(["make", kit, "--draft", "--out", "own", "--trimmer", mine(LEFT)]) == 1
    usual, own = (
        " ".join(page.extract_text() for page in PdfReader(tmp_path / out / "kit-read.pdf").pages).split()
        for out in ("usual", "own")
    )
    assert "Run the blade with your left hand." in " ".join(own)
    assert "This booklet is made for your own trimmer" in " ".join(own)
    assert "own trimmer" not in " ".join(usual)


def test_a_booklet_made_for_ones_own_trimmer_is_proved_for_it(kit: str) -> None:
    Path(kit).write_text(SMALL, encoding="utf-8")
    own = ["--trimmer", mine("unit: in\nmark: 1/2\nhold: 1 1/4\n")]
    assert main(["make", kit, "--out", "own", *own]) == 0
    assert main(["proof", kit, "--out", "own", "--file", "own/kit-read.pdf", *own]) == 0
    assert main(["proof", kit, "--out", "own", "--file", "own/kit-read.pdf"]) == 2


def test_a_file_that_says_what_is_usual_changes_no_figure(kit: str) -> None:
    usual = "unit: in\nmark: 1/8\nreach: 15\nblade: 12\nhold: 1\ntogether: 3\n"
    main(["draw", kit, "--out", "kits"])
    main(["draw", kit, "--out", "own", "--trimmer", mine(usual)])
    drawn = {path.name: path.read_bytes() for path in Path("kits/figures").iterdir()}
    assert drawn == {path.name: path.read_bytes() for path in Path("own/figures").iterdir()}


@pytest.mark.parametrize(
    ("trimmer", "leaves"),
    [("together: 3\n", "[panel, slip, scrap]"), ("hand: left\n", "[slip, panel, scrap]")],
)
def test_cuts_are_planned_and_written_for_the_hands_that_make_them(
    trimmer: str, leaves: str, kit: str
) -> None:
    """A slip of 3/4 beside a panel of 9: the right hand that holds it had only the slip, beyond the blade."""
    text = FERN.replace("    count: 2\n", "").replace("    spare: edge strip\n", "")
    start, end = text.index("    cuts:"), text.index("  - {id: sand")
    wanted = "    cuts: plan\n    sizes: {slip: 3/4 x 12, panel: 9 x 12}\n"
    Path(kit).write_text(text[:start] + wanted + text[end:], encoding="utf-8")
    assert main(["plan", kit, "--write", "--trimmer", mine(trimmer)]) == 0
    assert f"leaves: {leaves}" in Path(kit).read_text(encoding="utf-8")


@pytest.mark.parametrize("kit", DEMOS)
def test_a_demo_can_be_cut_on_a_trimmer_whose_scale_begins_at_the_right(
    kit: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text("zero: right\n", encoding="utf-8")
    assert main(["check", kit, "--trimmer", str(mine)]) == 0
    assert "nothing wrong" in capsys.readouterr().out
