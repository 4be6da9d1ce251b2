"""What all tests share."""

from __future__ import annotations

import gc
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

# No test is judged by seconds; and what decides whether a change lands must say the same twice.
settings.register_profile("house", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("house")

# Nobody's own trimmer changes what a test sees.
os.environ["XDG_CONFIG_HOME"] = str(Path(__file__).parent / "no-settings")

# Programs that tests start find what they import compiled, also where a run is told to leave nothing behind.
if os.environ.pop("PYTHONDONTWRITEBYTECODE", None):
    compiled = tempfile.TemporaryDirectory()
    os.environ["PYTHONPYCACHEPREFIX"] = compiled.name

# Workers, and programs that tests start, keep memory that arrays and pictures have had for the next of them.
# To get it from the system anew takes a twentieth of a run (mallopt(3) of glibc; others pass it over).
for setting in ("MALLOC_MMAP_THRESHOLD_", "MALLOC_TRIM_THRESHOLD_"):
    os.environ.setdefault(setting, str(1 << 30))

# What a run keeps, millions of objects, is searched for garbage once, while it is new.
gc.set_threshold(100_000, 1_000, 1_000)

# A check that several tables share says as much when it fails as one that stands in a test.
pytest.register_assert_rewrite("tests.cases")


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish() -> None:
    """Search all for garbage, whose complaints pytest tells; it would do so five times over at the end."""
    gc.collect()
    gc.freeze()


@pytest.fixture
def booklets_made_once(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """The commands take a booklet of the same kit that was made before, but where it is `made_afresh`."""
    if "made_afresh" not in request.fixturenames:
        from tests.once import let_commands_share

        let_commands_share(monkeypatch)


@pytest.fixture
def made_afresh() -> None:
    """For a test of the making itself: nothing that was made before is taken."""


@pytest.fixture(autouse=True)
def no_fraction_was_given_a_letter() -> Iterator[None]:
    """Where quicktions is given a text of one letter, it writes over this byte of the interpreter's own."""
    yield
    assert chr(0).encode()[0] == 0
