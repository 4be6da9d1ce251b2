"""Reading files of demo kits and of specs, each made once in a run, with what they are made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from booklet.kit.bundled import find_spec
from booklet.kit.load import LoadedKit, load_kit, parse_kit
from booklet.pages.booklet import LaidBooklet
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.once import laid_once, written_once
from tests.spec_data import SPECS

DEMOS = ("hill-line", "roof-garden")


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


def saved(file: bytes, folder: Path, name: str = "kit-read.pdf") -> Path:
    """A file, written into a folder."""
    path = folder / name
    path.write_bytes(file)
    return path
