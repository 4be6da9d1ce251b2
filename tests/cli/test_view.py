"""`booklet view`: it prints its address, answers this computer alone, and ends when it is asked to."""

from __future__ import annotations

import os
import signal
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path
from subprocess import Popen
from urllib.parse import urlsplit

import pytest

from tests.cli.runs import ends_soon, files_in, run, started
from tests.view.looking import a_spec, get, listening


@contextmanager
def viewing(*arguments: str | Path) -> Iterator[tuple[Popen[bytes], str]]:
    """The program at work, and the address that it prints; whatever happens, it is ended."""
    process = started("view", *arguments)
    assert process.stdout is not None
    try:
        yield process, process.stdout.readline().decode().split()[0].rstrip("/")
    finally:
        if process.poll() is None:
            process.kill()
        process.communicate()


@pytest.mark.parametrize("stop", [signal.SIGINT, pytest.param(signal.SIGTERM, marks=pytest.mark.thorough)])
def test_it_ends_at_once_and_leaves_nothing(tmp_path: Path, stop: signal.Signals) -> None:
    spec = a_spec(tmp_path / "kit")
    before = files_in(tmp_path)
    with viewing(spec) as (process, address), listening(address) as browser:
        browser.state("current")
        os.kill(process.pid, stop)
        said, complained = process.communicate(timeout=60)
        assert (process.returncode, said, complained) == (0, b"", b"")
        assert ends_soon(process.pid)
    assert files_in(tmp_path) == before
    with pytest.raises(ConnectionRefusedError):
        get(address)


def test_only_this_computer_is_answered(tmp_path: Path) -> None:
    with viewing(a_spec(tmp_path / "kit")) as (_, address):
        assert urlsplit(address).hostname == "127.0.0.1"
        port = urlsplit(address).port
        others = {info[4][0] for info in socket.getaddrinfo(socket.gethostname(), port, socket.AF_INET)}
        for host in others - {"127.0.0.1"}:
            with pytest.raises(OSError, match="refused"):
                HTTPConnection(str(host), port, timeout=5).request("GET", "/")


def test_a_port_that_is_taken_is_told(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = run("view", spec, "--port", str(port))
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.decode() == f"booklet: cannot serve on port {port}: Address already in use\n"


@pytest.mark.parametrize("port", ["70000", "-1", "x", "²"])
def test_a_port_that_is_none_is_refused(tmp_path: Path, port: str) -> None:
    done = run("view", a_spec(tmp_path / "kit"), f"--port={port}")
    assert (done.returncode, done.stdout) == (2, b"")
    assert f"'{port}': expected a port, 0 to 65535" in done.stderr.decode()


def test_a_kit_that_is_not_there_is_told(tmp_path: Path) -> None:
    done = run("view", tmp_path / "kit.yaml")
    assert (done.returncode, done.stdout) == (2, b"")
    assert "there is no kit spec" in done.stderr.decode()


def test_the_newer_loopback_address_is_served_where_it_is_asked_for(tmp_path: Path) -> None:
    try:
        with socket.socket(socket.AF_INET6) as there:
            there.bind(("::1", 0))
    except OSError:
        pytest.skip("this computer has no ::1")
    with viewing(a_spec(tmp_path / "kit"), "--ipv6") as (_, address):
        assert urlsplit(address).hostname == "::1"
        assert get(address).status == 200
        assert get(address, Host="kit.example").status == 403
