"""What this program wrote into a folder, kit by kit: so that it replaces nothing but its own files.

`KIT-files.sha256` lists every file with its digest, and says which were written together.  A file that is not
as its list says is the user's own, or was changed since; so is one that no list names.
"""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterable, Iterator, Mapping
from enum import Enum
from pathlib import Path

from booklet.cli.file_list import FileSet, digest_of, list_text, parse_list, set_of
from booklet.cli.files import holds, opened_folder, put_all
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import replace

# No list of a kit's files is longer, in bytes: what is, was not written here.
_MOST_BYTES = 4 << 20
# How many names are told before the others are counted.
_TOLD = 3


class Stale(Enum):
    """Why a file does not go with the kit as it is now."""

    CHANGED = "changed since, or not the file that was written"
    EARLIER = "of another edition than the kit is now"
    MIXED = "left by a run that was stopped while it wrote"


def list_name(stem: str) -> str:
    """The name of the list of a kit's files."""
    return f"{stem}-files.sha256"


def write_set(options: Namespace, stem: str, contents: Mapping[str, bytes], edition: str = "") -> list[Path]:
    """Write files that belong together into the folder asked for, all or none, and list them there.

    Raises UsageError, and writes nothing, where the folder cannot be written, or where it would replace a
    file that this program did not write, unless `options.replace` says so.
    """
    folder: Path = options.out
    with opened_folder(folder) as aside:
        before = _sets_or_none(folder, stem) if options.replace else read_sets(folder, stem)
        if not options.replace:
            _refuse_others(folder, contents, before)
        new = set_of(contents, edition)
        after = (*_left_of(folder, before, contents), new)
        # Who kills it half-way leaves a list that knows the old files and the new ones.
        listed = list_name(stem)
        puts = [(listed, list_text((*before, new))), *contents.items(), (listed, list_text(after))]
        put_all(folder, puts, aside)
    return [folder / name for name in contents]


def read_sets(folder: Path, stem: str) -> tuple[FileSet, ...]:
    """The files of a kit that this program wrote into a folder, by its list; none where there is no list.

    Raises UsageError for a file of that name that is no such list.
    """
    path = folder / list_name(stem)
    try:
        with path.open("rb") as stream:
            return parse_list(stream.read(_MOST_BYTES).decode())
    except FileNotFoundError:
        return ()
    except ValueError:
        raise UsageError(f"{path} is no list of files of this program: {_cure('it')}") from None


def _sets_or_none(folder: Path, stem: str) -> tuple[FileSet, ...]:
    try:
        return read_sets(folder, stem)
    except UsageError:
        return ()


def _cure(what: str) -> str:
    return f"move {what} away, or have {what} replaced with --replace"


def _refuse_others(folder: Path, contents: Mapping[str, bytes], sets: Iterable[FileSet]) -> None:
    """Raise UsageError where a file is not ours, and not what is to be written anyway."""
    known: dict[str, set[str]] = {}
    for each in sets:
        for name, digest in each.digests.items():
            known.setdefault(name, set()).add(digest)
    others = [
        str(folder / name)
        for name, content in contents.items()
        if _is_other(folder / name, known.get(name, set())) and not holds(folder / name, content)
    ]
    if others:
        are, them = ("is", "it") if len(others) == 1 else ("are", "them")
        raise UsageError(
            f"{_told(others)} {are} not as this program wrote {them}, but your own, or changed since: "
            f"{_cure(them)}. Nothing was written"
        )


def _is_other(target: Path, known: set[str]) -> bool:
    """Whether something is there that none of these digests is of; of a folder that is said when it fails."""
    if target.is_symlink():
        return True
    return target.is_file() and digest_of(target.read_bytes()) not in known


def _told(names: list[str]) -> str:
    """`a`, `a and b`, `a, b, c and 5 more`."""
    shown = names if len(names) <= _TOLD + 1 else [*names[:_TOLD], f"{len(names) - _TOLD} more"]
    *before, last = shown
    return f"{', '.join(before)} and {last}" if before else last


def _left_of(folder: Path, sets: Iterable[FileSet], contents: Mapping[str, bytes]) -> Iterator[FileSet]:
    """What is left of earlier sets: files that are still there, and whose names are not written anew."""
    for each in sets:
        digests = {
            name: digest
            for name, digest in each.digests.items()
            if name not in contents and (folder / name).is_file()
        }
        if digests:
            yield replace(each, digests=digests)


# What does not go together.


def stale_files(folder: Path, stem: str, edition: str) -> dict[str, Stale]:
    """The listed files of a kit that are there and do not go with this edition, in colour or in black."""
    sets = read_sets(folder, stem)
    names = dict.fromkeys(name for each in sets for name in each.digests)
    found = {name: _stale(folder, name, sets, edition) for name in names}
    return {name: why for name, why in found.items() if why is not None}


def stale_lines(folder: Path, stale: Mapping[str, Stale]) -> list[str]:
    """What there is to say of such files, a line for each reason."""
    lines = []
    for why in Stale:
        names = [name for name, its in stale.items() if its is why]
        if names:
            lines.append(f"{folder} also holds {_told(names)}: {why.value}")
    return lines


def tell_stale(folder: Path, stem: str, edition: str) -> None:
    """Say on standard error what else of the kit lies there and does not go with what was written now.

    Figures of an earlier run are told with the figures.
    """
    stale = stale_files(folder, stem, edition)
    others = {name: why for name, why in stale.items() if not name.endswith(".svg")}
    for line in stale_lines(folder, others):
        print(line, file=sys.stderr)


def _stale(folder: Path, name: str, sets: Iterable[FileSet], edition: str) -> Stale | None:
    """What is wrong with a listed file; None where it is well, or gone."""
    try:
        digest = digest_of((folder / name).read_bytes())
    except OSError:
        return None
    listed = [each for each in sets if name in each.digests]
    its = next((each for each in listed if each.digests[name] == digest), None)
    if its is None:
        return Stale.CHANGED
    if len({each.digests[name] for each in listed}) > 1:
        return Stale.MIXED
    return Stale.EARLIER if its.edition and _in_colour(its.edition) != _in_colour(edition) else None


def _in_colour(edition: str) -> str:
    """The edition in colour that one in black goes with."""
    return edition.partition("-")[0]
