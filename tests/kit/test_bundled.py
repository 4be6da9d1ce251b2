"""Finding a kit spec by its path, or a demo kit by its name."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.kit.bundled import bundled_kits, find_spec
from booklet.kit.errors import UsageError

ROOT = Path(__file__).parents[2]


@pytest.fixture
def folders(tmp_path: Path) -> tuple[Path, Path]:
    """Where an installation would hold its kits (it does not), and where a checkout does."""
    checkout = tmp_path / "checkout"
    checkout.mkdir()
    for name in ("tide-pool.yaml", "apple-barn.yaml", "notes.txt", "paper.jpg"):
        (checkout / name).touch()
    return tmp_path / "installed", checkout


@pytest.fixture
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "kitchen"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


def test_the_demo_kits_are_the_specs_of_the_checkout() -> None:
    assert list(bundled_kits().values()) == sorted((ROOT / "kit_specs").glob("*.yaml"))


def test_kits_come_in_the_order_of_their_names(folders: tuple[Path, Path]) -> None:
    assert list(bundled_kits(folders)) == ["apple-barn", "tide-pool"]


@pytest.mark.usefixtures("elsewhere")
@pytest.mark.parametrize("name", ["tide-pool", "tide-pool.yaml"])
def test_a_demo_kit_is_found_by_its_name_from_anywhere(name: str, folders: tuple[Path, Path]) -> None:
    assert find_spec(name, folders) == folders[1] / "tide-pool.yaml"


@pytest.mark.usefixtures("elsewhere")
def test_an_installed_kit_is_found(folders: tuple[Path, Path]) -> None:
    installed = folders[0]
    installed.mkdir()
    (installed / "winter-post.yaml").touch()
    assert find_spec("winter-post", folders) == installed / "winter-post.yaml"


def test_a_file_at_hand_comes_before_a_demo_kit(folders: tuple[Path, Path], elsewhere: Path) -> None:
    (elsewhere / "tide-pool.yaml").touch()
    assert find_spec("tide-pool.yaml", folders) == Path("tide-pool.yaml")
    assert find_spec("tide-pool", folders) == folders[1] / "tide-pool.yaml"


def test_a_spec_of_any_name_is_found_by_its_path(folders: tuple[Path, Path], elsewhere: Path) -> None:
    spec = elsewhere / "June kit.yml"
    spec.touch()
    assert find_spec(str(spec), folders) == spec


@pytest.mark.usefixtures("elsewhere")
def test_a_name_nearly_right_is_answered_with_the_nearest(folders: tuple[Path, Path]) -> None:
    with pytest.raises(
        UsageError, match=r"'tidepool' \(nearest: tide-pool\); the demo kits: apple-barn, tide-pool$"
    ):
        find_spec("tidepool", folders)


@pytest.mark.parametrize(
    ("typed", "meant"), [("meadov.yaml", "meadow.yaml"), ("june/kit.yaml", "june/kits.yaml")]
)
def test_a_path_nearly_right_is_answered_with_the_spec_that_lies_there(
    typed: str, meant: str, folders: tuple[Path, Path], elsewhere: Path
) -> None:
    (elsewhere / "june").mkdir()
    for name in ("meadow.yaml", "meadow.jpg", "june/kits.yaml", "june/kits.txt"):
        (elsewhere / name).touch()
    with pytest.raises(UsageError, match=rf"'{typed}' \(nearest: {meant}\)"):
        find_spec(typed, folders)


def test_a_folder_stands_for_the_kit_spec_in_it(folders: tuple[Path, Path], elsewhere: Path) -> None:
    (elsewhere / "june").mkdir()
    (elsewhere / "june" / "kit.yaml").touch()
    assert find_spec("june", folders) == find_spec("june/", folders) == Path("june/kit.yaml")


def test_a_folder_without_a_kit_yaml_is_answered_with_a_spec_in_it(
    folders: tuple[Path, Path], elsewhere: Path
) -> None:
    (elsewhere / "june").mkdir()
    (elsewhere / "june" / "meadow.yaml").touch()
    with pytest.raises(UsageError, match=r"'june' \(nearest: june/meadow.yaml\)"):
        find_spec("june", folders)


@pytest.mark.usefixtures("elsewhere")
@pytest.mark.parametrize(
    "kit",
    [
        "",
        ".",
        "..",
        "/",
        "notes",
        "paper.jpg",
        "../checkout/tide-pool",
        "checkout/tide-pool.yaml",
        "*",
        "\0",
        "x" * 9999,
    ],
)
def test_what_is_no_spec_and_no_name_is_refused(kit: str, folders: tuple[Path, Path]) -> None:
    with pytest.raises(UsageError, match="no kit spec and no demo kit"):
        find_spec(kit, folders)
