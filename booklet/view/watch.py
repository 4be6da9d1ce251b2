"""The folder of a spec, watched: whoever waits is told that something in it may have changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread

# A save is told within twice the first of these, in milliseconds, or within the second while more follows.
_STEP, _DEBOUNCE = 2, 10
# How often a folder is looked for that has gone, in seconds.
_LOOK_AGAIN = 0.5

_Identity = tuple[int, int]


class FolderWatch:
    """A thread that calls `changed` when a file right in a folder is written, renamed or deleted, if its name
    `concerns` whoever asks.

    The folder is watched rather than its file: editors write another file and rename it.
    """

    def __init__(self, folder: Path, concerns: Callable[[str], bool], changed: Callable[[], None]) -> None:
        self._folder, self._concerns, self._changed = folder, concerns, changed
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
            if (watched := _identity(self._folder)) is not None:
                self._watch_folder(watched)
                self._changed()
            self._stop.wait(_LOOK_AGAIN)

    def _watch_folder(self, watched: _Identity) -> None:
        """Tell of changes until the folder is gone or another one, or the watch is closed."""
        from watchfiles import watch

        seen = watch(
            self._folder,
            watch_filter=lambda _, path: self._concerns(Path(path).name),
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
                if _identity(self._folder) != watched:
                    return
        except (OSError, RuntimeError):  # it went while the watch was set up
            return


def _identity(folder: Path) -> _Identity | None:
    """What tells a folder from another one that takes its name; None where there is none."""
    try:
        found = folder.stat()
    except OSError:
        return None
    return (found.st_dev, found.st_ino) if folder.is_dir() else None
