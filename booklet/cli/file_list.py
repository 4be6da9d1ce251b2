"""The list of the files that were written of a kit: each with its digest, as `sha256sum --check` reads it."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath

from booklet import PROGRAM, VERSION
from booklet.measure.dataclass import dataclass, replace

# Figures of a digest that name a set of files, as many as name an edition.
_FIGURES = 12
_HEAD = re.compile(rf"# {PROGRAM} (\S+) wrote set ([0-9a-f]{{{_FIGURES}}})(?: of edition (\S+))?")
_LINE = re.compile(r"\\?([0-9a-f]{64})  (.+)")
# How sha256sum writes in a name what would end or hide it; such a line begins with a backslash.
_ESCAPES = {"\\": "\\\\", "\n": "\\n", "\r": "\\r"}
_ESCAPED = {escape: sign for sign, escape in _ESCAPES.items()}


@dataclass(frozen=True)
class FileSet:
    """The files that one run wrote together: the digest of each by its name, and their edition, if any."""

    name: str
    digests: Mapping[str, str]
    edition: str = ""
    version: str = VERSION


def digest_of(content: bytes) -> str:
    """The digest by which a file is known."""
    from hashlib import sha256

    return sha256(content).hexdigest()


def set_of(contents: Mapping[str, bytes], edition: str) -> FileSet:
    """These files as a set, with a name of its own: the digest of them all."""
    unnamed = FileSet("", {name: digest_of(content) for name, content in contents.items()}, edition)
    return replace(unnamed, name=digest_of(_section(unnamed).encode())[:_FIGURES])


def list_text(sets: Iterable[FileSet]) -> bytes:
    """The sets in the order of their names, whichever was written last."""
    by_name = {each.name: _section(each) for each in sets}
    return "".join(by_name[name] for name in sorted(by_name)).encode()


def _section(each: FileSet) -> str:
    of = f" of edition {each.edition}" if each.edition else ""
    head = f"# {PROGRAM} {each.version} wrote set {each.name}{of}\n"
    return head + "".join(_line(name, each.digests[name]) for name in sorted(each.digests))


def _line(name: str, digest: str) -> str:
    escaped = "".join(_ESCAPES.get(sign, sign) for sign in name)
    return f"{'' if escaped == name else chr(92)}{digest}  {escaped}\n"


def parse_list(text: str) -> tuple[FileSet, ...]:
    """The sets of a list.  Raises ValueError for a text that is none, or that names a file elsewhere."""
    sets: list[FileSet] = []
    digests: dict[str, str] = {}
    *lines, rest = text.split("\n")
    for line in lines:
        if head := _HEAD.fullmatch(line):
            digests = {}
            version, name, edition = head.groups(default="")
            sets.append(FileSet(name, digests, edition, version))
        elif (found := _LINE.fullmatch(line)) and sets:
            digests[_name(found[2], is_escaped=line.startswith("\\"))] = found[1]
        else:
            raise ValueError(line)
    if rest or not sets:
        raise ValueError(rest)
    return tuple(sets)


def _name(written: str, *, is_escaped: bool) -> str:
    """A name within the folder.  Raises ValueError for one that leads out of it."""
    name = re.sub(r"\\.", lambda escape: _ESCAPED.get(escape[0], ""), written) if is_escaped else written
    path = PurePosixPath(name)
    if path.is_absolute() or ".." in path.parts or "\0" in name or os.path.isabs(name):
        raise ValueError(name)
    return name
