"""Write files whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from booklet.kit.errors import UsageError


def write_files(folder: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write named files into a folder, making it where needed.

    Every file is written beside its place first; only when all are there do they take their names, so that
    a failure half-way leaves what was there before.  Raises UsageError where the folder cannot be written.
    """
    waiting: list[tuple[Path, Path]] = []
    try:
        for name, content in contents.items():
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            waiting.append((_write_beside(target, content), target))
        for written, target in waiting:
            os.replace(written, target)
    except OSError as trouble:
        reason = trouble.strerror or str(trouble)
        raise UsageError(f"{folder} cannot be written: {reason.lower()}") from trouble
    finally:
        for written, _ in waiting:
            written.unlink(missing_ok=True)
    return tuple(target for _, target in waiting)


def _write_beside(target: Path, content: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    with os.fdopen(handle, "wb") as file:
        file.write(content)
    written = Path(name)
    written.chmod(0o666 & ~_umask())
    return written


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
