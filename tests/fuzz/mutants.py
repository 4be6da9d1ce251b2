"""Mutants of the demo kits and of the starter: a spec with one change or a few, and the image beside it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from hypothesis import strategies as st

from booklet.cli.starter import STARTER_SPEC
from tests.fuzz.growth import grown_tree
from tests.fuzz.letters import changed_text
from tests.fuzz.pictures import KINDS, picture
from tests.fuzz.structure import Vocabulary, changed_tree, paths, value_at, with_value

_ROOT = Path(__file__).parents[2]
_CHANGES = (1, 1, 2, 3)
PICTURE = "hill-line.jpg"


@dataclass(frozen=True)
class Mutant:
    """A spec, what was changed in which kit, and what kind of image lies beside it."""

    kit: str
    changes: tuple[str, ...]
    text: str
    picture: str


@cache
def _specs() -> dict[str, str]:
    demos = sorted((_ROOT / "kit_specs").glob("*.yaml"))
    return {"starter": STARTER_SPEC, **{spec.stem: spec.read_text(encoding="utf-8") for spec in demos}}


@cache
def _tree(kit: str) -> Any:
    return yaml.load(_specs()[kit], Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader))


@cache
def _vocabulary() -> Vocabulary:
    """The words of the demos and of a kit of the tests that uses what they do not."""
    other = (_ROOT / "tests" / "kit" / "specs" / "harbour.yaml").read_text(encoding="utf-8")
    return Vocabulary([*map(_tree, _specs()), yaml.load(other, Loader=yaml.BaseLoader)])


# The starter is the smallest, and what goes wrong in it is read most easily.
_KITS = ("starter", "starter", "starter", "roof-garden", "roof-garden", "hill-line")


_WAYS = ("tree", "tree", "tree", "growth", "growth", "growth", "text", "picture")


@st.composite
def mutants(draw: st.DrawFn) -> Mutant:
    """Any of them."""
    kit = draw(st.sampled_from(_KITS))
    count = draw(st.sampled_from(_CHANGES))
    what = draw(st.sampled_from(_WAYS))
    if what == "picture":
        kind = draw(st.sampled_from(KINDS))
        tree = draw(_with_picture(_tree(kit)))
        return Mutant(kit, (f"picture: {kind}",), _dumped(tree), kind)
    changes: list[str] = []
    if what == "text":
        text = _specs()[kit]
        for _ in range(count):
            said, text = draw(changed_text(text))
            changes.append(said)
        return Mutant(kit, tuple(changes), text, "sound")
    tree = _tree(kit)
    for _ in range(count):
        said, tree = draw(grown_tree(tree) if what == "growth" else changed_tree(tree, _vocabulary()))
        changes.append(said)
    return Mutant(kit, tuple(changes), _dumped(tree), "sound")


@st.composite
def _with_picture(draw: st.DrawFn, tree: Any) -> Any:
    """A kit in which the image is the front of a paper, or the photograph of a layout."""
    layouts, fronts = [], []
    for path in paths(tree):
        if path[-1] == "front" and isinstance(value_at(tree, path), dict):
            fronts.append(path)
        if path[:1] == ("layouts",) and len(path) == 2:
            layouts.append(path)
    path = draw(st.sampled_from([*fronts, *layouts]))
    if path in layouts:
        return with_value(tree, path, lambda layout: {**layout, "photograph": PICTURE})
    return with_value(tree, path, lambda _: {"image": PICTURE})


def _dumped(tree: Any) -> str:
    if not isinstance(tree, dict | list | str):
        return str(tree)
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    return str(yaml.dump(tree, Dumper=dumper, allow_unicode=True, sort_keys=False, width=100))


def picture_of(mutant: Mutant) -> bytes:
    """The bytes of the image beside a mutant."""
    return picture(mutant.picture)


def starter() -> Mutant:
    """The starter as it is."""
    return Mutant("starter", (), STARTER_SPEC, "sound")
