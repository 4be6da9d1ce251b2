"""The name of an edition: it follows from the kit, its images and its words, and from nothing else."""

from __future__ import annotations

import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from booklet.content.document import document
from booklet.content.edition import edition_name
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit, parse_kit
from booklet.placing.resolved import resolve_kit
from tests.content.specs import SMALL

WITH_PHOTOGRAPH = SMALL.replace("- id: ebb\n", "- id: ebb\n    photograph: ebb.png\n")
NAME_OF_HILL_LINE = """
from booklet.content.document import document
from booklet.content.edition import edition_name
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit
from booklet.placing.resolved import resolve_kit
resolved = resolve_kit(load_kit(find_spec("hill-line")))
print(edition_name(resolved, document(resolved, ENGLISH)))
"""


def named(spec: str, folder: Path) -> str:
    resolved = resolve_kit(parse_kit(spec, "kit.yaml", folder))
    return edition_name(resolved, document(resolved, ENGLISH))


def with_photograph(folder: Path, grey: int) -> Path:
    folder.mkdir()
    out = BytesIO()
    Image.new("L", (40, 40), grey).save(out, "PNG")
    (folder / "ebb.png").write_bytes(out.getvalue())
    return folder


def test_a_kit_has_one_name_wherever_it_lies_and_another_with_another_image(tmp_path: Path) -> None:
    one, same, other = (
        with_photograph(tmp_path / name, grey) for name, grey in (("one", 90), ("same", 90), ("other", 91))
    )
    assert named(WITH_PHOTOGRAPH, one) == named(WITH_PHOTOGRAPH, same)
    assert named(WITH_PHOTOGRAPH, one) != named(WITH_PHOTOGRAPH, other)


@pytest.mark.parametrize("kit", ["hill-line", "roof-garden"])
def test_a_kit_is_written_down_without_places_in_memory(kit: str) -> None:
    resolved = resolve_kit(load_kit(find_spec(kit)))
    written = repr((resolved.kit, document(resolved, ENGLISH)))
    assert " at 0x" not in written
    assert "set(" not in written  # its order is another on each run


def test_the_name_is_the_same_on_each_run() -> None:
    said = {
        subprocess.run(
            [sys.executable, "-c", NAME_OF_HILL_LINE],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1
    assert said != {"\n"}
