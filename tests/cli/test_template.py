"""`booklet template`: a piece or a layout at true size, by the words that a member has for it."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from booklet.cli import main
from tests.templates.joined import read_pages
from tests.templates.tricky import TRICKY

BOTH = TRICKY.replace("id: left page", "id: card").replace("facing: left page", "facing: card")


def made(capsys: pytest.CaptureFixture[str], out: Path, *words: str) -> tuple[int, list[str], list[str]]:
    code = main(["template", *words, "--out", str(out)])
    said = capsys.readouterr()
    files = [Path(line).name for line in said.out.splitlines() if line.endswith(".pdf")]
    return code, files, said.err.splitlines()


def spec(folder: Path, text: str = TRICKY) -> str:
    (folder / "tricky.yaml").write_text(text, encoding="utf-8")
    return str(folder / "tricky.yaml")


@pytest.mark.parametrize(
    ("word", "file"),
    [
        ("left canopy", "hill-line-template-left-canopy.pdf"),  # a piece by its name
        ("Left canopy", "hill-line-template-left-canopy.pdf"),  # as a step begins with it
        ("2a", "hill-line-template-2A.pdf"),  # by its label
        ("up tag", "hill-line-template-up-tag.pdf"),  # an element
        ("cream mat", "hill-line-template-cream-mat.pdf"),  # ready-cut
        ("night half", "hill-line-template-night-half.pdf"),  # a part that scissors leave
        ("all-aboard", "hill-line-template-all-aboard.pdf"),  # a layout by its id
        ("All aboard", "hill-line-template-all-aboard.pdf"),  # by its title
        ("all aboard", "hill-line-template-all-aboard.pdf"),
    ],
)
def test_what_is_meant_is_found(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], word: str, file: str
) -> None:
    code, files, _ = made(capsys, tmp_path, "hill-line", word)
    assert (code, files) == (0, [file])
    assert read_pages((tmp_path / file).read_bytes())


@pytest.mark.parametrize(("options", "paper"), [([], "Letter"), (["--paper", "a4"], "A4")])
def test_it_says_on_what_it_is_printed(
    options: list[str], paper: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["template", "hill-line", "up tag", "--out", str(tmp_path), *options]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[1] == f"Print it on {paper} at 100 %, without fitting, on one side."


def test_a_label_means_one_piece_and_a_name_all_of_one_shape(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made(capsys, tmp_path, "hill-line", "2A")
    made(capsys, tmp_path, "hill-line", "left canopy")
    files = (tmp_path / f"hill-line-template-{name}.pdf" for name in ("2A", "left-canopy"))
    one, all_of_it = (file.read_bytes() for file in files)
    assert one == all_of_it
    words = words_of(tmp_path / "hill-line-template-2A.pdf")
    assert "leftcanopy,2A,12×2¹⁄₄in" in words


def words_of(file: Path) -> str:
    return "".join(sign.text for page in read_pages(file.read_bytes()) for sign in page.signs)


def test_pieces_of_one_name_and_two_shapes_have_a_template_each(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # One of two flaps has round corners.
    text = TRICKY.replace("leaves: [card, flap, note]", "leaves: [flap, flap, note]")
    text = text.replace("card: 5 x 4, ", "").replace("{place: card,", "{place: flap, called: first flap,")
    text = text.replace("{round: card", "{round: first flap").replace("{punch: card", "{punch: first flap")
    code, files, err = made(capsys, tmp_path, spec(tmp_path, text), "flap")
    assert (code, files) == (0, ["tricky-template-flap.pdf"]), err
    assert len(read_pages((tmp_path / files[0]).read_bytes())) == 2


def test_a_name_that_is_both_asks_which(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kit = spec(tmp_path, BOTH)
    code, files, err = made(capsys, tmp_path, kit, "card")
    assert (code, files) == (2, [])
    assert err == ['booklet: "card" is a piece and a layout of this kit: say --piece or --layout']
    for which, pages in (("--piece", 1), ("--layout", 4)):
        code, files, _ = made(capsys, tmp_path, kit, "card", which)
        assert (code, files) == (0, ["tricky-template-card.pdf"])
        assert len(read_pages((tmp_path / files[0]).read_bytes())) == pages


def test_what_nothing_is_called_is_said_with_the_nearest(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert made(capsys, tmp_path, "hill-line", "left cannopy") == (
        2,
        [],
        ['booklet: no piece or layout of this kit is called "left cannopy" (nearest: left canopy)'],
    )
    code, _, err = made(capsys, tmp_path, "hill-line", "left canopy", "--layout")
    assert code == 2
    assert err[0].startswith('booklet: no layout of this kit is called "left canopy"')
    assert list(tmp_path.iterdir()) == []


def test_of_a_kit_with_errors_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kit = spec(tmp_path, TRICKY.replace("at: [8, 4]", "at: [13, 4]"))
    code, files, err = made(capsys, tmp_path / "out", kit, "card")
    assert (code, files) == (1, [])
    assert any("error cut-beyond-piece" in line for line in err)
    assert err[-1] == "Nothing was written: mend the errors first."
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("kit", "said", "page"),
    [
        ("hill-line", [], (215.9, 279.4)),
        ("roof-garden", [], (210, 297)),
        ("roof-garden", ["--paper", "letter"], (215.9, 279.4)),
        ("hill-line", ["--paper", "a4"], (210, 297)),
    ],
)
def test_the_paper_goes_with_the_kit_s_page(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    kit: str,
    said: list[str],
    page: tuple[float, float],
) -> None:
    """Letter is ASME Y14.1's size A, A4 is ISO 216's (from memory)."""
    name = {"hill-line": "rail", "roof-garden": "parapet"}[kit]
    _, files, _ = made(capsys, tmp_path, kit, name, *said)
    for read in read_pages((tmp_path / files[0]).read_bytes()):
        assert read.size == pytest.approx(page, abs=0.01)


def test_a_printer_is_told_to_leave_the_size_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, files, _ = made(capsys, tmp_path, "hill-line", "rail")
    with pikepdf.open(tmp_path / files[0]) as pdf:
        wishes = pdf.Root.ViewerPreferences
        assert [str(wish) for wish in (wishes.PrintScaling, wishes.Duplex)] == ["/None", "/Simplex"]
    words = words_of(tmp_path / files[0])
    assert words.count("Printat100%,notfitted,ononeside.") == 2


@pytest.mark.usefixtures("made_afresh")
@pytest.mark.parametrize("name", ["left canopy", "home-by-starlight"])
def test_the_same_kit_gives_the_same_bytes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    made(capsys, tmp_path / "one", "hill-line", name)
    made(capsys, tmp_path / "two", "hill-line", name)
    (one,), (two,) = ((tmp_path / each).glob("*.pdf") for each in ("one", "two"))
    assert one.read_bytes() == two.read_bytes()
