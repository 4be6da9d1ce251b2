"""`booklet rescue`: what replaces a spoiled piece, told by label or name."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.cli import main
from booklet.kit.load import load_kit
from booklet.placing.resolved import resolve_kit
from tests.cli.test_plan import WRITTEN, spec_file


def rescued(
    capsys: pytest.CaptureFixture[str], kit: str | Path, *pieces: str
) -> tuple[int, list[str], list[str]]:
    code = main(["rescue", str(kit), "--spoiled", *pieces])
    out, err = capsys.readouterr()
    return code, out.splitlines(), err.splitlines()


def test_scrap_is_cut_in_steps_that_are_printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    # Of the fern sheet 6 1/2 x 4 of scrap is left, enough for a panel that is less high.
    text = WRITTEN.replace("panel: 6 1/2 x 8", "panel: 6 1/2 x 3 1/2").replace("at: [8]", "at: [3 1/2]")
    code, out, err = rescued(capsys, spec_file(tmp_path, text), "panel")
    assert (code, err) == (0, [])
    assert out == [
        "# panel: from the scrap, 6 1/2 x 8 1/2, of sheet 1, Fern",
        "  - turn: clockwise",
        "    at: [3 1/2]",
        "    leaves: [panel, scrap]",
    ]


def test_a_spare_piece_is_taken_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = rescued(capsys, spec_file(tmp_path, WRITTEN), "mat")
    assert out == ["# mat: take the spare mat, 4 x 6, of sheet 2, Sand"]


def test_a_piece_may_be_named_by_its_label(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    by_label = rescued(capsys, spec_file(tmp_path, WRITTEN), "1c")
    assert by_label == rescued(capsys, tmp_path / "window.yaml", "edge strip")
    assert by_label[1] == [
        "# edge strip (1C): cannot be cut again; "
        "nothing left over of Fern, or of another paper of its colour, holds 2 1/2 x 12"
    ]


def test_a_name_twice_means_two_pieces(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = rescued(capsys, spec_file(tmp_path, WRITTEN), "mat", "mat")
    assert out == ["# mat: take the spare mat, 4 x 6, of sheet 2, Sand"] * 2
    code, out, err = rescued(capsys, tmp_path / "window.yaml", *["mat"] * 5)
    assert (code, out) == (2, [])
    assert err == ['booklet: "mat" is said more often than there are such pieces (4)']


def test_a_label_is_not_taken_away_by_a_name_that_is_said_before_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # The name alone would mean the first mat; the label can mean no other.
    spec = spec_file(tmp_path, WRITTEN)
    first = next(entry.label for entry in resolve_kit(load_kit(spec)).ledger.entries if entry.name == "mat")
    code, out, err = rescued(capsys, spec, "mat", first)
    assert (code, out, err) == (0, ["# mat: take the spare mat, 4 x 6, of sheet 2, Sand"] * 2, [])
    code, _, err = rescued(capsys, spec, first, "mat", first)
    assert (code, err) == (2, [f'booklet: "{first}" is said more often than there are such pieces (1)'])


def test_what_no_piece_is_called_is_said_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = rescued(capsys, "hill-line", "badge matt")
    assert (code, out) == (2, [])
    assert err == ['booklet: no piece of this kit is called "badge matt" (nearest: badge mat)']


def test_what_has_a_print_of_its_own_is_lost(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = rescued(capsys, "hill-line", "left canopy", "brass mat")
    assert out == [
        "# brass mat: take the spare brass mat, 4 1/2 x 6 1/2, from the box, Brass card",
        "# left canopy (2A): cannot be cut again; its print or its outline is its own",
    ]
