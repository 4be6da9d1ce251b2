"""The demo kits that come with the program, called by name.

They lie beside the package in a checkout (`kit_specs/`) and inside it when installed (`booklet/kit_specs/`).
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from booklet.kit.errors import UsageError
from booklet.kit.words import nearest

_PACKAGE = Path(__file__).resolve().parent.parent
# The spec that a folder is named for.
_SPEC_OF_FOLDER = "kit.yaml"
_FOLDERS = (_PACKAGE / "kit_specs", _PACKAGE.parent / "kit_specs")


def bundled_kits(folders: Sequence[Path] = _FOLDERS) -> dict[str, Path]:
    """The demo kits by name, in the order of their names; a name is a spec's file name without its ending."""
    specs = [spec for folder in folders for spec in folder.glob("*.yaml")]
    return {spec.stem: spec for spec in sorted(specs, key=lambda spec: spec.stem)}


def find_spec(kit: str, folders: Sequence[Path] = _FOLDERS) -> Path:
    """The file of a kit spec: its path, its folder (of a kit.yaml), or the name of a demo kit (`hill-line`).

    A file of that name where the command was called comes before a demo kit.
    Raises UsageError where there is neither, with the spec in a folder of that name, the nearest spec that
    lies there or the nearest demo kit.
    """
    if os.path.isfile(kit):  # Unlike Path.is_file, it takes any text: names too long, or with a NUL in them.
        return Path(kit)
    if kit and os.path.isfile(os.path.join(kit, _SPEC_OF_FOLDER)):
        return Path(kit, _SPEC_OF_FOLDER)
    kits = bundled_kits(folders)
    name = kit.removesuffix(".yaml")
    if name in kits:
        return kits[name]
    within = _specs_in(kit) if os.path.isdir(kit) else []
    close = within[0] if within else nearest(kit, _specs_in(os.path.dirname(kit))) or nearest(name, kits)
    hint = f" (nearest: {close})" if close else ""
    raise UsageError(
        f"there is no kit spec and no demo kit {kit!r}{hint}; the demo kits: {', '.join(kits) or 'none'}"
    )


def _specs_in(folder: str) -> list[str]:
    """The specs in a folder, as they would have been typed; an empty name is the folder that one is in."""
    try:
        names = sorted(os.listdir(folder or "."))
    except (OSError, ValueError):
        return []
    return [os.path.join(folder, name) for name in names if name.endswith((".yaml", ".yml"))]
