"""Who looks on: browsers that are told of every change, and what each of them has in view."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from queue import SimpleQueue
from threading import Lock
from typing import Any

from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class InView:
    """The numbers of the pages that a browser shows, and how many pixels wide each is there."""

    pages: tuple[int, ...] = ()
    width: int = 0


class Viewer:
    """One browser that listens: what it has in view, and what it has not been told yet."""

    def __init__(self) -> None:
        self.in_view = InView()
        self.untold: SimpleQueue[bytes | None] = SimpleQueue()


class Viewers:
    """All browsers that listen, by the names that they were given."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._listening: dict[str, Viewer] = {}
        self._count = 0
        self._is_closed = False
        self._lock = Lock()

    def join(self) -> tuple[str, Viewer] | None:
        """A new one with its name; None where too many listen, or all is over."""
        with self._lock:
            if self._is_closed or len(self._listening) >= self._most:
                return None
            self._count += 1
            name, viewer = str(self._count), Viewer()
            self._listening[name] = viewer
            return name, viewer

    def leave(self, name: str) -> None:
        """This one listens no longer."""
        with self._lock:
            self._listening.pop(name, None)

    def look(self, name: str, in_view: InView) -> bool:
        """Note what one has in view; whether there is one of that name."""
        with self._lock:
            viewer = self._listening.get(name)
            if viewer is not None:
                viewer.in_view = in_view
            return viewer is not None

    def tell(self, event: bytes) -> None:
        """Tell all."""
        with self._lock:
            for viewer in self._listening.values():
                viewer.untold.put(event)

    def tell_each(self, event: Callable[[InView], bytes]) -> None:
        """Tell each what there is to tell to one that has such pages in view."""
        with self._lock:
            listening = list(self._listening.values())
        for viewer in listening:
            viewer.untold.put(event(viewer.in_view))

    def close(self) -> None:
        """Tell all that nothing follows, and let nobody join."""
        with self._lock:
            self._is_closed = True
            for viewer in self._listening.values():
                viewer.untold.put(None)

    def looks(self) -> Iterator[InView]:
        """What each has in view."""
        with self._lock:
            looks = [viewer.in_view for viewer in self._listening.values()]
        yield from looks


def event(name: str, data: Any) -> bytes:
    """A server-sent event with data."""
    return f"event: {name}\ndata: {json.dumps(data, ensure_ascii=False)}\n\n".encode()
