"""A spec and what lies beside it, watched: whoever waits is told that something may have changed."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread

# A save is told within twice the first of these, in milliseconds, or within the second while more follows.
_STEP, _DEBOUNCE = 2, 10
# How often a folder is looked for that has gone, in seconds.
_LOOK_AGAIN = 0.5

_Identity = tuple[int, int]


class SpecWatch:
    """A thread that calls `changed` when a file beside a spec is written, renamed or deleted, if its name
    `concerns` whoever asks; where the spec is a link, also a file beside what it leads to.

    Folders are watched rather than files: editors write another file and rename it.
    """

    def __init__(self, spec: Path, concerns: Callable[[str], bool], changed: Callable[[], None]) -> None:
        self._spec, self._concerns, self._changed = spec, concerns, changed
        self._stop = Event()
        self._thread = Thread(target=self._watch, name="watch", daemon=True)

    def start(self) -> None:
        """Begin to watch."""
        self._thread.start()

    def close(self) -> None:
        """Watch no longer; returns when the thread has ended."""
        self._stop.set()
        self._thread.join()

    def _watch(self) -> None:
        while not self._stop.is_set():
            if watched := _folders_of(self._spec):
                self._watch_folders(watched)
                self._changed()
            self._stop.wait(_LOOK_AGAIN)

    def _watch_folders(self, watched: dict[Path, _Identity]) -> None:
        """Tell of changes until other folders are to be watched, or none."""
        from watchfiles import watch

        seen = watch(
            *watched,
            watch_filter=lambda _, path: self._is_meant(Path(path)),
            step=_STEP,
            debounce=_DEBOUNCE,
            stop_event=self._stop,
            rust_timeout=int(_LOOK_AGAIN * 1000),
            yield_on_timeout=True,
            raise_interrupt=False,
            recursive=False,
        )
        is_watched = False
        try:
            for changes in seen:
                # What was written while the watch was set up is told when it is seen to stand.
                if changes or not is_watched:
                    self._changed()
                is_watched = True
                if _folders_of(self._spec) != watched:
                    return
        except (OSError, RuntimeError):  # it went while the watch was set up
            return

    def _is_meant(self, file: Path) -> bool:
        """Whether a file of a folder that is watched is the spec, by whatever name, or concerns who asks."""
        return self._concerns(file.name) or file.name == _real(self._spec).name


def _folders_of(spec: Path) -> dict[Path, _Identity]:
    """The folders to watch for a spec, each once, with what tells it from another one that takes its name."""
    found: dict[Path, _Identity] = {}
    for folder in (spec.parent, _real(spec).parent):
        identity = _identity(folder)
        if identity is not None and identity not in found.values():
            found[folder] = identity
    return found


def _real(spec: Path) -> Path:
    """The file that a spec is, through all links; as it was given where they lead in a circle."""
    return Path(os.path.realpath(spec))


def _identity(folder: Path) -> _Identity | None:
    """What tells a folder from another one that takes its name; None where there is none."""
    try:
        found = folder.stat()
    except OSError:
        return None
    return (found.st_dev, found.st_ino) if folder.is_dir() else None
