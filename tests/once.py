"""Booklets made and read once in a run: what does the same work again gets what came of it before.

Reading a spec, working out its kit, laying it out, writing its pages, drawing its figures and reading a file
back take what they are given and nothing else, and change nothing (`tests/kit`, `tests/placing`,
`tests/pages`, `tests/proof` and `tests/cli/test_make.py` hold that, on what is made afresh).  So a test of
what comes after need not wait for them.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.writers import svg_writer
from booklet.kit import load
from booklet.kit.images import Images
from booklet.kit.kit_files import image_files
from booklet.kit.load import LoadedKit
from booklet.kit.own_trimmer import OwnTrimmer
from booklet.measure import fork
from booklet.pages import booklet
from booklet.pages.booklet import LaidBooklet
from booklet.placing import resolved as resolving
from booklet.placing.resolved import ResolvedKit
from booklet.proof import file_reader, proof
from booklet.proof.file_reader import FinishedFile
from booklet.proof.pictures import PagePicture, page_pictures

# So many things of a kind are kept that somebody has asked for again: those of the demos and of small kits.
# Of what nobody has asked for again, a kit or a file that one test has changed, only the latest are kept; of
# kits before they are laid out, which are small, as many as a table of tests changes.
_SHARED, _NEW, _NEW_KITS = 12, 8, 24


@dataclass(eq=False)
class _Kept:
    """Something that was made, and of what; whether anybody has asked for it again."""

    key: tuple[Any, ...]
    made: Any
    was_shared: bool = False


@dataclass(eq=False)
class _Shelf:
    """What was made of what, in the order in which it was asked for."""

    make: Callable[..., Any]
    new: int = _NEW
    kept: list[_Kept] = field(default_factory=list)

    def holds(self, key: tuple[Any, ...]) -> bool:
        return any(each.key == key for each in self.kept)

    def take(self, key: tuple[Any, ...], *asked: Any) -> Any:
        """What was made for an equal key, or what is made of this."""
        at = next((at for at, each in enumerate(self.kept) if each.key == key), None)
        if at is not None:
            found = self.kept.pop(at)
            found.was_shared = True
        else:
            found = _Kept(key, self.make(*asked))
            self._make_room()
        self.kept.append(found)
        return found.made

    def _make_room(self) -> None:
        """Let go what was asked for longest ago, where there is no room for one more."""
        shared = [each for each in self.kept if each.was_shared]
        new = [each for each in self.kept if not each.was_shared]
        self.kept = [*shared[-_SHARED:], *new[-(self.new - 1) :]]


def _read(data: bytes) -> FinishedFile:
    if _READ_AND_SEEN.holds((data,)):
        return read_and_seen_once(data)[0]
    return file_reader.read_file(data)


def _read_and_seen(data: bytes) -> tuple[FinishedFile, tuple[PagePicture, ...]]:
    if _READ.holds((data,)):
        return read_once(data), tuple(page_pictures(data))
    return file_reader.read_file_and_pictures(data)


_LOADED = _Shelf(load.parse_kit, _NEW_KITS)
_RESOLVED = _Shelf(resolving.resolve_kit, _NEW_KITS)
_LAID = _Shelf(booklet.make_booklet)
_LAID_BLACK = _Shelf(booklet.make_black_booklet)
_WRITTEN = _Shelf(booklet.write_booklet)
_DRAWN = _Shelf(svg_writer.figure_svgs)
_READ = _Shelf(_read)
_READ_AND_SEEN = _Shelf(_read_and_seen)


class _Same:
    """What is equal to itself alone."""

    def __init__(self, thing: object) -> None:
        self.thing = thing

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.thing is self.thing


def loaded_once(text: str, name: str, images: Images, own: OwnTrimmer | None = None) -> LoadedKit:
    """The kit of a spec's text, as long as nothing changes in the folder of its images."""
    loaded: LoadedKit
    if isinstance(images, Path) and images.is_dir():
        folder = images.resolve(), *sorted(_traces(images))
        loaded = _LOADED.take((text, name, images, folder, own), text, name, images, own)
    else:
        loaded = _LOADED.make(text, name, images, own)
    return loaded


def _traces(folder: Path) -> Iterator[tuple[str, int, int]]:
    """The files right in a folder, where a kit's images lie, when each was written and how long it is."""
    with os.scandir(folder) as files:
        for file in files:
            its = file.stat(follow_symlinks=False)
            yield file.name, its.st_mtime_ns, its.st_size


def resolved_once(loaded: LoadedKit, *others: Any, **named: Any) -> ResolvedKit:
    """A kit with all that follows from its spec, but for one to be planned: somebody is told of that."""
    resolve: Callable[..., ResolvedKit] = _RESOLVED.make
    if others or any(sheet.cuts is None for sheet in loaded.kit.sheets):
        return resolve(loaded, *others, **named)
    resolved: ResolvedKit = _RESOLVED.take((_Same(loaded),), loaded)
    return resolved


def _key(resolved: ResolvedKit) -> tuple[Any, ...]:
    """All that a booklet is made of: its kit, and the files that go into it."""
    return resolved.typed, resolved.kit, image_files(resolved.kit, resolved.images)


def _laid(shelf: _Shelf, resolved: ResolvedKit, language: Language) -> LaidBooklet:
    # A kit that was put together in a test has no files by which it could be told from one like it.
    if not resolved.typed:
        made: LaidBooklet = shelf.make(resolved, language)
        return made
    laid: LaidBooklet = shelf.take((language, *_key(resolved)), resolved, language)
    return laid


def laid_once(resolved: ResolvedKit, language: Language = ENGLISH) -> LaidBooklet:
    """The booklet of a kit, laid out."""
    return _laid(_LAID, resolved, language)


def laid_once_in_black(resolved: ResolvedKit, language: Language = ENGLISH) -> LaidBooklet:
    """The booklet of a kit for one ink, laid out."""
    return _laid(_LAID_BLACK, resolved, language)


def written_once(laid: LaidBooklet, is_draft: bool = False) -> bytes:
    """The reading file of a booklet that is laid out."""
    written: bytes = _WRITTEN.take((_Same(laid), is_draft), laid, is_draft)
    return written


def drawn_once(figures: Iterable[Figure]) -> list[str]:
    """Each figure as an SVG document."""
    drawn = tuple(figures)
    svgs: list[str] = _DRAWN.take(tuple(map(_Same, drawn)), drawn)
    return list(svgs)


def read_once(data: bytes) -> FinishedFile:
    """A finished file, read back."""
    file: FinishedFile = _READ.take((data,), data)
    return file


def read_and_seen_once(data: bytes) -> tuple[FinishedFile, tuple[PagePicture, ...]]:
    """A finished file, read back, and as its pages are seen."""
    file: tuple[FinishedFile, tuple[PagePicture, ...]] = _READ_AND_SEEN.take((data,), data)
    return file


@contextmanager
def shared_by_commands() -> Iterator[None]:
    """Let the commands take what was made before, for what several tests look at."""
    with pytest.MonkeyPatch.context() as patch:
        let_commands_share(patch)
        yield


def let_commands_share(patch: pytest.MonkeyPatch) -> None:
    """Let the commands, which import what they need when they need it, take what was made before.

    What they would do in a fork, which could leave nothing for the next, they do here.
    """
    patch.setattr(fork, "_may_fork", lambda: False)
    patch.setattr(load, "parse_kit", loaded_once)
    patch.setattr(resolving, "resolve_kit", resolved_once)
    patch.setattr(svg_writer, "figure_svgs", drawn_once)
    patch.setattr(proof, "read_file", read_once)
    patch.setattr(proof, "read_file_and_pictures", read_and_seen_once)
    patch.setattr(booklet, "make_booklet", laid_once)
    patch.setattr(booklet, "make_black_booklet", laid_once_in_black)
    patch.setattr(booklet, "write_booklet", written_once)
