"""The press files that the tests of this folder read, each made once by a worker."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.cli import main as command
from tests.once import shared_by_commands

DEMOS = ("hill-line", "roof-garden")


@pytest.fixture(scope="session")
def press_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The press files of both demos: one in inches, one in centimetres with creep."""
    folder = tmp_path_factory.mktemp("press")
    with shared_by_commands():
        assert command(["press", "hill-line", "--out", str(folder)]) == 0
        assert command(["press", "roof-garden", "--out", str(folder), "--caliper", "0.12mm"]) == 0
    return folder


@pytest.fixture(params=[f"{demo}-{kind}.pdf" for demo in DEMOS for kind in ("press", "press-sheets")])
def press_file(request: pytest.FixtureRequest, press_folder: Path) -> Path:
    """Single pages and press sheets of both demos in turn."""
    return press_folder / str(request.param)
