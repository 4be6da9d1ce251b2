"""The kit that a command is asked about: a spec, a demo, or a finished reading file alone."""

from __future__ import annotations

import os
from argparse import Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.cli.asked import load_asked
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import dataclass
from booklet.proof.pdf_beginning import LOOKED_AT, begins_like_pdf

if TYPE_CHECKING:
    from booklet.kit.load import LoadedKit
    from booklet.pages.booklet import LaidBooklet
    from booklet.placing.resolved import ResolvedKit
    from booklet.proof.kit_inside import GivenKit

# A reading file is as large as its pictures; no kit's pictures are larger than this.
_MOST_BYTES = 400 << 20


@dataclass(frozen=True)
class GivenFile:
    """A reading file that was given in place of a spec: its name, its bytes, and what is inside."""

    name: str
    data: bytes
    kit: GivenKit


@dataclass(frozen=True)
class Source:
    """A loaded kit, and the reading file that it came in, if it came in one."""

    loaded: LoadedKit
    given: GivenFile | None = None

    @property
    def is_draft(self) -> bool:
        """Whether its pages are those of a draft."""
        return self.given is not None and self.given.kit.edition.is_draft

    @property
    def is_black(self) -> bool:
        """Whether its pages are printed in black alone."""
        return self.given is not None and self.given.kit.edition.is_black


def lay_out_again(source: Source, resolved: ResolvedKit) -> LaidBooklet:
    """Lay out the booklet of a kit as it was in its reading file: in colour, or in black.

    Raises what `make_booklet` raises.
    """
    from booklet.pages.booklet import make_black_booklet, make_booklet

    return make_black_booklet(resolved) if source.is_black else make_booklet(resolved)


def open_source(options: Namespace) -> Source:
    """Load the kit that is named, from its spec or from its reading file.

    Raises SpecError with every problem of a spec, UsageError for a file that is neither.
    """
    if not _is_pdf(options.kit):
        return Source(load_asked(options))
    from booklet.proof.kit_inside import kit_inside

    if options.trimmer is not None:
        raise UsageError(f"{options.kit} is finished: --trimmer is for a kit spec")
    path = Path(options.kit)
    data = _read(path)
    inside = kit_inside(path.name, data)
    return Source(inside.loaded, GivenFile(path.name, data, inside))


def _is_pdf(named: str) -> bool:
    """Whether a file is named that begins like a PDF, or that is called one."""
    if named.lower().endswith(".pdf") and not os.path.isdir(named):
        return True
    if not os.path.isfile(named):
        return False
    try:
        with open(named, "rb") as stream:
            return begins_like_pdf(stream.read(LOOKED_AT))
    except OSError:
        return False


def _read(path: Path) -> bytes:
    try:
        with path.open("rb") as stream:
            data = stream.read(_MOST_BYTES + 1)
    except OSError as error:
        raise UsageError(f"cannot read {path.name}: {error.strerror}") from None
    if len(data) > _MOST_BYTES:
        raise UsageError(f"{path.name} is larger than a reading file can be ({_MOST_BYTES >> 20} MiB)")
    return data
