"""Reading files of demo kits and of specs, each made once in a run, with what they are made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image

from booklet.kit.bundled import find_spec
from booklet.kit.load import LoadedKit, load_kit, parse_kit
from booklet.pages.booklet import LaidBooklet
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.once import laid_once, written_once
from tests.spec_data import SPECS

# A kit whose two papers bear one image.
TIDE = """
title: Tide
publisher: P
sheet: 12 x 12
papers:
  a: {front: {image: tide.png}}
  b: {front: {image: tide.png}}
sheets:
  - {id: a, paper: a, cuts: [{at: [6], leaves: [one, two]}]}
  - {id: b, paper: b, cuts: [{at: [6], leaves: [three, four]}]}
  - {id: c, paper: b}
layouts:
  - id: x
    pocket: 1
    base: c
    steps:
      - {place: one, left: 0, top: 0}
      - {place: two, right: 0, top: 0}
      - {place: three, left: 2, top: 0}
      - {place: four, right: 2, top: 0}
"""


@dataclass(frozen=True)
class Made:
    """A kit, its booklet laid out, and its reading file."""

    loaded: LoadedKit
    resolved: ResolvedKit
    laid: LaidBooklet
    file: bytes


@cache
def made(spec: str) -> Made:
    """The reading file of a demo kit by its name, or of a spec by its text."""
    return made_of(parse_kit(spec, "plain.yaml", SPECS) if "\n" in spec else load_kit(find_spec(spec)))


def made_of(loaded: LoadedKit) -> Made:
    """The reading file of a loaded kit."""
    resolved = resolve_kit(loaded)
    laid = laid_once(resolved)
    return Made(loaded, resolved, laid, written_once(laid))


@cache
def with_image(image: str) -> Made:
    """The reading file of a kit with an image, a JPEG or a PNG by its name."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        Image.effect_noise((60, 60), 90).convert("RGB").save(folder / image)
        (folder / "tide.yaml").write_text(TIDE.replace("tide.png", image), encoding="utf-8")
        return made_of(load_kit(folder / "tide.yaml"))


def saved(file: bytes, folder: Path, name: str = "kit-read.pdf") -> Path:
    """A file, written into a folder."""
    path = folder / name
    path.write_bytes(file)
    return path
