"""The finished booklets that the tests of this folder read, each made once in a run."""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from tests.finished.kits import KITS, Finished, made_once

Open = Callable[[str], Finished]


@pytest.fixture(scope="session")
def open_booklet(tmp_path_factory: pytest.TempPathFactory) -> Open:
    """Opens the finished booklet of a kit by its name."""
    base = tmp_path_factory.getbasetemp()
    # Workers of one run share what is made in the folder above their own.
    shelf: Path = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "finished"
    shelf.mkdir(exist_ok=True)

    @cache
    def open_one(name: str) -> Finished:
        return Finished(name, made_once(name, shelf))

    return open_one


@pytest.fixture(params=KITS)
def finished(request: pytest.FixtureRequest, open_booklet: Open) -> Finished:
    """The finished booklet of each kit in turn."""
    return open_booklet(request.param)
