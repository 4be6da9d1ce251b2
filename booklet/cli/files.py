"""Write files whole or not at all, and several of them all or none."""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from stat import S_ISDIR
from tempfile import mkdtemp

from booklet.cli.ownership import keep_ownership, refuse_read_only
from booklet.cli.progress import note
from booklet.cli.unstopped import unstopped
from booklet.kit.errors import UsageError

# What most file systems allow a name to be, in bytes, less what is added to one: a number and an ending.
_LONGEST_NAME = 200
# How the names of folders begin that hold files until they are whole.
_ASIDE = ".booklet-"
# For how long such a folder must have lain untouched, in seconds: what is written takes a few.
_SECONDS_LEFT = 60.0
# Each file and what it replaced, None where there was nothing.
_Replaced = list[tuple[Path, Path | None]]


def file_names(names: Iterable[str]) -> list[str]:
    """A file's name for each of these, without an ending, in characters that any file system takes.

    They hold no folder and are all different, also where case is ignored.
    """
    taken: dict[str, int] = {}
    return [_another(_plain(name), taken) for name in names]


def _plain(name: str) -> str:
    """The name with all but letters, digits, - and _ made dashes, cut where it grows too long."""
    dashed = "".join(letter if letter.isalnum() or letter in "-_" else "-" for letter in name)
    return dashed.encode()[:_LONGEST_NAME].decode(errors="ignore")


def _another(name: str, taken: dict[str, int]) -> str:
    """The name, or with the next number where it is taken."""
    key = name.casefold()
    taken[key] = taken.get(key, 0) + 1
    return name if taken[key] == 1 else _another(f"{name}-{taken[key]}", taken)


def write_files(folder: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write named files into a folder, making it where needed; a name may lead into a folder within it.

    Every file is written aside first, and only when all are there do they take their names: no
    half-written file is ever seen, and a failure or a stop half-way leaves what was there before.
    Raises UsageError where the folder cannot be written.
    """
    with opened_folder(folder) as aside:
        put_all(folder, contents.items(), aside)
    return tuple(folder / name for name in contents)


@contextmanager
def opened_folder(folder: Path) -> Iterator[Path]:
    """A folder that is made where needed, while no other run writes into it; where files wait aside.

    Raises UsageError for whatever keeps the folder from being written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with _in_turn(folder):
            _tidy(folder)
            with _folder_aside(folder) as aside:
                yield aside
    except (OSError, ValueError) as trouble:  # ValueError: a name with a NUL in it
        reason = trouble.strerror if isinstance(trouble, OSError) and trouble.strerror else str(trouble)
        raise UsageError(f"{folder} cannot be written: {reason.lower()}") from trouble


@contextmanager
def _in_turn(folder: Path) -> Iterator[None]:
    """Wait until no other run puts files into the folder, where the system can tell.

    The lock is on the folder itself, so that nothing is left of it, and ends with its process.
    """
    try:
        from fcntl import LOCK_EX, flock
    except ImportError:  # Windows
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # a disk without locks
            flock(handle, LOCK_EX)
        yield
    finally:
        os.close(handle)


@contextmanager
def _folder_aside(folder: Path) -> Iterator[Path]:
    """A folder within another where files are written until they take their names."""
    aside: Path | None = None
    try:
        with unstopped():
            aside = Path(mkdtemp(prefix=f"{_ASIDE}{os.getpid()}-", dir=folder))
        yield aside
    finally:
        try:
            _remove(aside)
        except KeyboardInterrupt:  # it came before it was held back
            _remove(aside)
            raise


def _remove(aside: Path | None) -> None:
    with unstopped():
        if aside is not None:
            shutil.rmtree(aside, ignore_errors=True)


def _tidy(folder: Path) -> None:
    """Remove what a run has left aside that was killed, and say so on standard error.

    The name of such a folder tells the process that made it; one that still runs keeps its own.
    """
    for left in sorted(folder.glob(f"{_ASIDE}*-*")):
        process = left.name.removeprefix(_ASIDE).partition("-")[0]
        if process.isdigit() and _is_old(left) and not _is_running(int(process)):
            shutil.rmtree(left, ignore_errors=True)
            note(f"removed {left}, which a run that was killed had left")


def _is_old(left: Path) -> bool:
    """Whether it is a folder that nothing was put into for a while: another computer may write there, too."""
    try:
        found = left.lstat()
    except OSError:
        return False
    return S_ISDIR(found.st_mode) and time.time() - found.st_mtime > _SECONDS_LEFT


def _is_running(process: int) -> bool:
    if os.name == "nt":  # there, to ask a process would stop it
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:  # it is another user's, or this system does not say
        return True
    return True


def put_all(folder: Path, contents: Iterable[tuple[str, bytes]], aside: Path) -> None:
    """Put named files into an opened folder, in this order, all or none; a name may come twice."""
    changed = [(folder / name, content) for name, content in contents if not holds(folder / name, content)]
    waiting = [aside / f"new-{number}" for number in range(len(changed))]
    for new, (_, content) in zip(waiting, changed, strict=True):
        new.write_bytes(content)
    with unstopped() as stops:
        replaced: _Replaced = []
        try:
            for number, (new, (target, _)) in enumerate(zip(waiting, changed, strict=True)):
                target.parent.mkdir(parents=True, exist_ok=True)
                replaced.append((target, _kept(target, aside / f"old-{number}")))
                os.replace(new, target)
            if stops:
                raise KeyboardInterrupt
        except BaseException:
            _put_back(replaced)
            raise


def holds(target: Path, content: bytes) -> bool:
    """Whether a file is there already as it is to be: it is left alone."""
    if target.is_symlink() or not target.is_file() or target.stat().st_size != len(content):
        return False
    return target.read_bytes() == content


def _kept(target: Path, old: Path) -> Path | None:
    """A hard link to what is there, so that it can be restored; a copy where the disk has no hard links."""
    if not os.path.lexists(target):
        return None
    try:
        os.link(target, old, follow_symlinks=False)
    except OSError:
        shutil.copy2(target, old, follow_symlinks=False)
    return old


def _put_back(replaced: _Replaced) -> None:
    for target, old in reversed(replaced):
        if old is None:
            target.unlink(missing_ok=True)
        else:
            os.replace(old, target)


def rewrite(file: Path, old: bytes, new: bytes) -> None:
    """Put `new` into a file that holds `old`; it keeps its place, its name, whose it is and who may read it.

    Raises UsageError, with the file as it was, where it has changed meanwhile, is read-only, or cannot be
    written so that it stays whose it was.
    """
    target = file.resolve()  # a link stays a link
    try:
        refuse_read_only(target)
        _tidy(target.parent)
        with _folder_aside(target.parent) as aside:
            written = aside / "new"
            written.write_bytes(new)
            keep_ownership(target, written)
            if target.read_bytes() != old:
                raise UsageError(f"{file} has changed meanwhile; it is left as it is")
            os.replace(written, target)
    except OSError as trouble:
        reason = trouble.strerror or str(trouble)
        raise UsageError(f"{file} cannot be written: {reason.lower()}") from trouble
