"""Serving the edition on this machine, and publishing again on a change."""

from __future__ import annotations

import http.client
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from http.server import ThreadingHTTPServer
from pathlib import Path

import pytest

from combobook.show import HERE, address, keep_showing, serve


@pytest.fixture
def build(tmp_path: Path) -> Path:
    edition(tmp_path / "build", "one")
    return tmp_path / "build"


def edition(folder: Path, word: str) -> None:
    for path in ("site/index.html", "site/glazes/attic-moth.html", "print/wall-chart.pdf", "data/book.json", ".combobook"):
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(f"{path} {word}")


@pytest.fixture
def server(build: Path) -> Iterator[ThreadingHTTPServer]:
    running = serve(build)
    thread = threading.Thread(target=running.serve_forever)
    thread.start()
    yield running
    running.shutdown()
    running.server_close()
    thread.join()


def get(server: ThreadingHTTPServer, path: str, host: str = "") -> tuple[int, str]:
    connection = http.client.HTTPConnection(HERE, server.server_address[1], timeout=10)
    try:
        connection.request("GET", path, headers={"Host": host} if host else {})
        answer = connection.getresponse()
        assert answer.headers["Cache-Control"] == "no-store"
        return answer.status, answer.read().decode()
    finally:
        connection.close()


@pytest.mark.parametrize(
    ("path", "file"),
    [
        ("/", "site/index.html"),
        ("/index.html?x=1", "site/index.html"),
        ("/glazes/attic-moth.html", "site/glazes/attic-moth.html"),
        ("/print/wall-chart.pdf", "print/wall-chart.pdf"),
        ("/data/book.json", "data/book.json"),
    ],
)
def test_pages_sheets_and_data_are_served(server: ThreadingHTTPServer, path: str, file: str) -> None:
    assert get(server, path) == (200, f"{file} one")


@pytest.mark.parametrize(
    "path", ["/gone.html", "/glazes/", "/.combobook", "/../.combobook", "/%2e%2e/.combobook", "/print/../../secret",
             "/print/%2e%2e/%2e%2e/secret", "/..%5csecret", "/glazes/%00", "/out/secret", "//etc/passwd"]
)
def test_nothing_else_is(server: ThreadingHTTPServer, build: Path, path: str) -> None:
    (build.parent / "secret").write_text("secret")
    (build / "site/out").symlink_to(build.parent)
    status, text = get(server, path)
    assert status == 404
    assert "secret one" not in text


def test_a_page_from_elsewhere_cannot_read_it_under_another_name(server: ThreadingHTTPServer) -> None:
    assert get(server, "/", host="evil.example:80")[0] == 421
    assert get(server, "/", host=f"localhost:{server.server_address[1]}")[0] == 200


def test_only_this_machine_is_listened_to(server: ThreadingHTTPServer) -> None:
    assert server.socket.getsockname()[0] == "127.0.0.1"
    assert address(server) == f"http://127.0.0.1:{server.server_address[1]}/"


def test_a_taken_port_is_no_obstacle(server: ThreadingHTTPServer, build: Path) -> None:
    other = serve(build)
    try:
        assert other.server_address[1] != server.server_address[1]
    finally:
        other.server_close()


def test_an_exchanged_edition_is_served_at_once(server: ThreadingHTTPServer, build: Path) -> None:
    assert get(server, "/") == (200, "site/index.html one")
    build.rename(build.parent / "old")
    edition(build, "two")
    shutil.rmtree(build.parent / "old")
    assert get(server, "/") == (200, "site/index.html two")


def test_a_change_publishes_again_and_what_is_no_entry_does_not(tmp_path: Path, build: Path) -> None:
    folder = tmp_path / "content"
    (folder / "glazes").mkdir(parents=True)
    counted, said, stop = [], [], threading.Event()
    showing = threading.Thread(
        target=keep_showing, args=(folder, build, lambda: counted.append(1), said.append, stop)
    )
    showing.start()

    def until(times: int) -> bool:
        end = time.monotonic() + 20
        while len(counted) < times and time.monotonic() < end:
            time.sleep(0.02)
        return len(counted) == times

    try:
        assert until(1)
        while not said:
            time.sleep(0.02)
        time.sleep(0.3)  # for the watch to begin
        (folder / "glazes/x.md").write_text("---\n")
        assert until(2)
        (folder / "glazes/.x.md.swp").write_text("swap")
        (folder / "~$x.md").write_text("lock")
        time.sleep(1)
        assert until(2)
        (folder / "glazes/x.md").unlink()
        assert until(3)
    finally:
        stop.set()
        showing.join(timeout=20)
    assert not showing.is_alive()
    assert len(said) == 1
    assert said[0].startswith(f"showing {build} at http://127.0.0.1:")
    port = int(said[0].split(":")[2].split("/")[0])
    with pytest.raises(OSError), socket.create_connection((HERE, port), timeout=2):
        pass


def test_ctrl_c_ends_it_quietly(tmp_path: Path, build: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def watch(*values: object, **named: object) -> Iterator[None]:
        raise KeyboardInterrupt
        yield

    monkeypatch.setattr("watchfiles.watch", watch)
    keep_showing(tmp_path, build, lambda: None, lambda text: None)
