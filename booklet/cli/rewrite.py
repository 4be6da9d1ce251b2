"""Replace one file by another version of it, whole or not at all."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from tempfile import TemporaryDirectory

from booklet.kit.errors import UsageError


def rewrite(file: Path, old: bytes, new: bytes) -> None:
    """Put `new` into a file that holds `old`; it keeps its place, its name and who may read it.

    Raises UsageError, with the file as it was, where it has changed meanwhile or cannot be written.
    """
    target = file.resolve()  # a link stays a link
    try:
        with TemporaryDirectory(prefix=".booklet-", dir=target.parent) as aside:
            written = Path(aside) / "new"
            written.write_bytes(new)
            shutil.copymode(target, written)
            if target.read_bytes() != old:
                raise UsageError(f"{file} has changed meanwhile; it is left as it is")
            os.replace(written, target)
    except OSError as trouble:
        reason = trouble.strerror or str(trouble)
        raise UsageError(f"{file} cannot be written: {reason.lower()}") from trouble
