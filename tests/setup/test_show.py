"""Serving the edition on this machine, publishing again on a change, and saying on the page what stands in the way."""

from __future__ import annotations

import http.client
import json
import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import ThreadingHTTPServer
from pathlib import Path

import html5lib
import pytest
from playwright.sync_api import Page, sync_playwright

from combobook.show import Outcome, keep_showing
from combobook.show.board import Board
from combobook.show.server import HERE, address, serve
from combobook.show.sheets import SheetsAfterwards

PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'self'"><title>Mug</title>
<script src="script/data.js" defer></script></head><body><main><h1>{word}</h1></main></body></html>"""


class NoSheets:
    """Stands in for what follows the pages, and notes when it is asked for."""

    def __init__(self) -> None:
        self.asked: list[str] = []

    def begin(self) -> None:
        self.asked.append("begin")

    def give_up(self) -> None:
        self.asked.append("give up")


@pytest.fixture
def build(tmp_path: Path) -> Path:
    edition(tmp_path / "build", "one")
    return tmp_path / "build"


def edition(folder: Path, word: str) -> None:
    for path in ("site/index.html", "site/glazes/attic-moth.html", "print/wall-chart.pdf", "data/book.json", ".combobook"):
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(f"{path} {word}")


@pytest.fixture
def board() -> Board:
    return Board()


@pytest.fixture
def server(build: Path, board: Board) -> Iterator[ThreadingHTTPServer]:
    running = serve(build, board)
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
    status, text = get(server, path)
    assert status == 200
    assert text.startswith(f"{file} one")
    assert (text == f"{file} one") == (not file.endswith(".html")), "only pages get the note"


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
    other = serve(build, Board())
    try:
        assert other.server_address[1] != server.server_address[1]
    finally:
        other.server_close()


def test_an_exchanged_edition_is_served_at_once(server: ThreadingHTTPServer, build: Path) -> None:
    assert get(server, "/")[1].startswith("site/index.html one")
    build.rename(build.parent / "old")
    edition(build, "two")
    shutil.rmtree(build.parent / "old")
    assert get(server, "/")[1].startswith("site/index.html two")


def put(build: Path, word: str) -> None:
    (build / "site/script").mkdir(exist_ok=True)
    (build / "site/script/data.js").write_text("window.data = 1;")
    (build / "site/mug.html").write_text(PAGE.format(word=word))


def version(server: ThreadingHTTPServer, page: str) -> str:
    return str(json.loads(get(server, f"/~show/state?page={page}")[1])["version"])


def test_what_stands_in_the_way_is_on_the_page_as_text(server: ThreadingHTTPServer, build: Path, board: Board) -> None:
    put(build, "one")
    said = 'glazes/x.md:2:1: error: `<script>alert("1")</script>` is no cone & more'
    board.put_up(Outcome(published=False, errors=said))
    page = html5lib.parse(get(server, "/mug.html")[1], namespaceHTMLElements=False)
    note = page.find(".//div[@id='show-note']")
    assert note.get("hidden") is None
    assert note.find("pre").text == said
    assert "last good book" in "".join(note.itertext())
    assert [s.get("src") for s in page.iter("script")] == ["script/data.js", "/~show/follow.js"]
    assert page.find(".//h1").text == "one"


def test_a_page_without_an_error_hides_the_note(server: ThreadingHTTPServer, build: Path) -> None:
    put(build, "one")
    page = html5lib.parse(get(server, "/mug.html")[1], namespaceHTMLElements=False)
    assert page.find(".//div[@id='show-note']").get("hidden") is not None


def test_nothing_of_it_is_in_the_files(server: ThreadingHTTPServer, build: Path) -> None:
    put(build, "one")
    get(server, "/mug.html")
    assert (build / "site/mug.html").read_text() == PAGE.format(word="one")


def test_a_page_has_another_version_when_it_or_its_data_changed_and_only_then(
    server: ThreadingHTTPServer, build: Path
) -> None:
    put(build, "one")
    first, other = version(server, "/mug.html"), version(server, "/glazes/attic-moth.html")
    put(build, "one")
    assert version(server, "/mug.html") == first
    (build / "site/script/data.js").write_text("window.data = 2;")
    second = version(server, "/mug.html")
    put(build, "two")
    assert len({first, second, version(server, "/mug.html")}) == 3
    assert version(server, "/glazes/attic-moth.html") == other
    assert version(server, "/../../secret.html") == version(server, "/nowhere.html") == "gone"


@contextmanager
def browser_page() -> Iterator[Page]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        try:
            yield browser.new_page(viewport={"width": 390, "height": 844})
        finally:
            browser.close()


def test_the_browser_follows(server: ThreadingHTTPServer, build: Path, board: Board) -> None:
    put(build, "one")
    with browser_page() as page:
        wrong: list[str] = []
        # A browser asks for an icon, which an edition need not have.
        page.on("console", lambda it: None if "favicon" in it.location["url"] else wrong.append(it.text))
        page.goto(f"{address(server)}mug.html")
        note = page.locator("#show-note")
        assert not note.is_visible()
        board.put_up(Outcome(published=False, errors="glazes/x.md:2:1: error: <b>no cone</b>"))
        note.wait_for(state="visible", timeout=5000)
        assert note.locator("pre").inner_text() == "glazes/x.md:2:1: error: <b>no cone</b>"
        assert page.locator("h1").inner_text() == "one"
        box = note.bounding_box()
        assert box is not None and box["x"] == 0 and box["width"] <= 390 and box["y"] + box["height"] <= 844.5
        put(build, "two")
        board.put_up(Outcome(published=True))
        page.locator("h1", has_text="two").wait_for(timeout=5000)
        note.wait_for(state="hidden", timeout=5000)
        assert wrong == []


def test_a_change_publishes_again_and_what_is_no_entry_does_not(tmp_path: Path, build: Path) -> None:
    folder = tmp_path / "content"
    (folder / "glazes").mkdir(parents=True)
    counted: list[int] = []
    said: list[str] = []
    stop, sheets = threading.Event(), NoSheets()

    def publish() -> Outcome:
        counted.append(1)
        return Outcome(published=len(counted) != 2, errors="wrong" if len(counted) == 2 else "")

    showing = threading.Thread(target=keep_showing, args=(folder, build, publish, said.append, sheets, stop))
    showing.start()

    def times(wanted: int) -> bool:
        return until(lambda: len(counted) >= wanted) and len(counted) == wanted

    try:
        assert times(1)
        while not said:
            time.sleep(0.02)
        (folder / "glazes/x.md").write_text("---\n")
        assert times(2)
        (folder / "glazes/.x.md.swp").write_text("swap")
        (folder / "~$x.md").write_text("lock")
        time.sleep(1)
        assert times(2)
        (folder / "glazes/x.md").unlink()
        assert times(3)
    finally:
        stop.set()
        showing.join(timeout=20)
    assert not showing.is_alive()
    # A publish that was stopped has no sheets to follow; every change gives up those in the making.
    assert sheets.asked == ["give up", "begin", "give up", "give up", "begin", "give up"]
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
    keep_showing(tmp_path, build, lambda: Outcome(published=True), lambda text: None, NoSheets())


def until(true: Callable[[], bool]) -> bool:
    end = time.monotonic() + 20
    while not true() and time.monotonic() < end:
        time.sleep(0.02)
    return true()


def test_sheets_that_are_given_up_end_at_once_and_say_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[str] = []
    sheets = SheetsAfterwards(tmp_path, tmp_path / "build", said.append, strict=False)
    monkeypatch.setattr(sheets, "_command", ("sleep", "600"))
    sheets.begin()
    running = sheets._running
    assert running is not None and running.poll() is None
    sheets.give_up()
    assert running.poll() is not None
    sheets.give_up()
    assert said == []


@pytest.mark.parametrize(
    ("command", "words"), [("true", "the printed sheets are there too"), ("false", "could not be made")]
)
def test_it_is_said_when_the_sheets_are_there_or_cannot_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, words: str
) -> None:
    said: list[str] = []
    sheets = SheetsAfterwards(tmp_path, tmp_path / "build", said.append, strict=False)
    monkeypatch.setattr(sheets, "_command", (command,))
    sheets.begin()
    assert until(lambda: len(said) == 1)
    assert words in said[0]
