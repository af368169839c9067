"""One site on disk and one browser for all tests of the screen."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.published_demo import site_on_a_stick
from tests.screen.person import CHROMIUM, Person


@pytest.fixture(scope="package")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """site/ of the demo, in a folder with a space in its name."""
    return site_on_a_stick(tmp_path_factory.mktemp("a stick")) / "site"


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path="/usr/bin/chromium", args=list(CHROMIUM))
        yield chromium
        chromium.close()


@pytest.fixture
def person(folder: Path, browser: Browser) -> Iterator[Person]:
    """Somebody at a laptop; at the end the browser must have had nothing to complain of."""
    someone = Person(folder, browser)
    yield someone
    someone.leave()
