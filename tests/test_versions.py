"""The constraints in .ci: the lowest versions are the bounds of the project, the exact ones within."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.version import Version

ROOT = Path(__file__).parents[1]


def pinned(name: str) -> dict[str, Version]:
    """The version of each package that a file of constraints names."""
    lines = (ROOT / ".ci" / name).read_text(encoding="utf-8").splitlines()
    pairs = (line.split("==") for line in lines if not line.startswith("#"))
    return {plain(package): Version(version) for package, version in pairs}


def plain(package: str) -> str:
    return package.lower().replace("_", "-")


def asked_for() -> dict[str, Requirement]:
    """What the project and its tests ask for, by name; none of what any version will do for."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = map(Requirement, [*project["dependencies"], *project["optional-dependencies"]["test"]])
    return {plain(each.name): each for each in asked if each.specifier}


def test_the_lowest_versions_are_those_that_the_project_takes() -> None:
    bounds = {
        name: Version(bound.version)
        for name, each in asked_for().items()
        for bound in each.specifier
        if bound.operator == ">="
    }
    assert pinned("lowest.txt") == bounds


@pytest.mark.parametrize("name", asked_for())
def test_the_exact_versions_are_within_the_bounds(name: str) -> None:
    assert pinned("exactly.txt")[name] in asked_for()[name].specifier
