"""What `booklet view` does: show the booklet in a browser of this computer, anew at each save of the spec."""

from __future__ import annotations

import signal
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event
from typing import TYPE_CHECKING

from booklet.cli.arguments import add_kit
from booklet.cli.exits import Exit
from booklet.kit.errors import UsageError

if TYPE_CHECKING:
    from booklet.view.look import Look
    from booklet.view.server import ViewServer

_MOST_PORT = 65535


def add_view(parser: ArgumentParser) -> None:
    """Declare what is looked at, and where it is served."""
    add_kit(parser)
    parser.add_argument(
        "--port", type=_port, default=0, metavar="N", help="the port to serve on (default: one that is free)"
    )
    parser.add_argument("--ipv6", action="store_true", help="serve on ::1 in the place of 127.0.0.1")
    parser.add_argument("--open", action="store_true", help="open it in the browser")


def view(options: Namespace) -> Exit:
    """Serve until somebody stops it; nothing is written, and nothing is left running."""
    from booklet.cli.asked import own_asked
    from booklet.content.words.english.view import EnglishView
    from booklet.drawing.layouts.ring_places import place_rings
    from booklet.kit.bundled import find_spec
    from booklet.kit.load import spec_name
    from booklet.measure.second_process import SecondProcess
    from booklet.view.look import Look
    from booklet.view.session import Session
    from booklet.view.watch import SpecWatch

    spec, own = find_spec(options.kit), own_asked(options)
    look = Look(spec_name(spec), EnglishView())
    server = _server(look, options)
    second = SecondProcess(place_rings)
    session = Session(spec, own, look, second)
    watch = SpecWatch(spec, session.concerns, session.changed)
    with _until_stopped() as stopped:
        server.start()
        session.start()
        watch.start()
        print(f"{server.address}  (Ctrl-C ends it)", flush=True)
        if options.open:
            _open(server.address)
        stopped.wait()
    watch.close()
    session.close()
    second.close()
    look.viewers.close()
    server.close()
    return Exit.WELL


def _server(look: Look, options: Namespace) -> ViewServer:
    """A server on the loopback address; raises UsageError where its port is taken or not to be had."""
    from booklet.view.server import IPV4, IPV6, ViewServer

    try:
        return ViewServer(look, IPV6 if options.ipv6 else IPV4, options.port)
    except OSError as error:
        where = f"port {options.port}" if options.port else "a port of this computer"
        raise UsageError(f"cannot serve on {where}: {error.strerror or error}") from None


@contextmanager
def _until_stopped() -> Iterator[Event]:
    """An event that is set when somebody stops the program: to stop it is the way to end it."""
    stopped = Event()
    numbers = (signal.SIGINT, signal.SIGTERM)
    before = {number: signal.getsignal(number) for number in numbers}
    for number in numbers:
        signal.signal(number, lambda _number, _frame: stopped.set())
    try:
        yield stopped
    finally:
        for number, handler in before.items():
            signal.signal(number, signal.SIG_DFL if handler is None else handler)


def _open(address: str) -> None:
    """Open an address in the browser; where there is none, it has been printed."""
    import webbrowser

    webbrowser.open(address)


def _port(text: str) -> int:
    if not text.isascii() or not text.isdigit() or int(text[:6]) > _MOST_PORT:
        raise ArgumentTypeError(f"{text!r}: expected a port, 0 to {_MOST_PORT}")
    return int(text)
