"""A kit spec file -> the kit, or every problem of the file at once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from booklet.kit.kit import Kit
from booklet.kit.own_trimmer import OwnTrimmer, fit_trimmer
from booklet.kit.read import read_model
from booklet.kit.references import check_references
from booklet.kit.source import Source
from booklet.kit.text import read_text

_A_KIT_SPEC = "a kit spec"


@dataclass(frozen=True)
class LoadedKit:
    """A kit, where its values were typed, and the folder that its images lie in.

    With a person's `own` trimmer it is the kit as it is made for that.
    """

    kit: Kit
    source: Source
    folder: Path
    own: OwnTrimmer | None = None


def load_kit(path: str | Path, own: OwnTrimmer | None = None) -> LoadedKit:
    """Read a kit spec; a person's own trimmer takes the place of the kit's.

    Raises SpecError with every problem of the file, UsageError where there is no such file.
    """
    file = Path(path)
    name = file.name if file.is_absolute() else str(file)
    return parse_kit(read_text(file, name, _A_KIT_SPEC), name, file.parent, own)


def parse_kit(text: str, name: str, folder: Path, own: OwnTrimmer | None = None) -> LoadedKit:
    """A spec's text as a kit; `name` is for messages, `folder` holds its images.

    Raises SpecError with every problem of the text.
    """
    kit, source = read_model(Kit, text, name, _A_KIT_SPEC, lambda kit, _: check_references(kit, folder))
    return LoadedKit(fit_trimmer(kit, own) if own else kit, source, folder, own)
