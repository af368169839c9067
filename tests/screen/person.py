"""Somebody at the screen: opens pages as files, and keeps what the browser complained of or asked of other machines."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

CHROMIUM = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip
SIZES = {"phone": (320, 640), "laptop": (1366, 768), "projector": (1920, 1080)}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


class Person:
    def __init__(self, folder: Path, browser: Browser) -> None:
        self._folder, self._browser = folder, browser
        self._complaints: list[str] = []
        self._contexts: list[Any] = []

    def open(self, address: str, size: str = "laptop", **how: Any) -> Page:
        """The page at `find.html#first=…`, in a window of that size; `how` is Playwright's (reduced motion, no script)."""
        width, height = SIZES[size]
        context = self._browser.new_context(viewport={"width": width, "height": height}, **how)
        self._contexts.append(context)
        context.on("request", lambda request: self._asked(request.url))
        page = context.new_page()
        page.on("console", lambda message: self._complaints.append(message.text) if message.type == "error" else None)
        page.on("pageerror", lambda error: self._complaints.append(str(error)))
        page.goto(self.address(address))
        return page

    def address(self, address: str) -> str:
        file, mark, state = address.partition("#")
        return (self._folder / file).as_uri() + mark + state

    def leave(self) -> None:
        for context in self._contexts:
            context.close()
        assert self._complaints == []

    def _asked(self, url: str) -> None:
        if not url.startswith("file:"):
            self._complaints.append(f"asked for {url}")


def is_as_wide_as_its_window(page: Page) -> bool:
    """WCAG 2.2, 1.4.10 Reflow: nothing scrolls sideways."""
    return bool(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))


def small_targets(page: Page, within: str) -> list[str]:
    """Controls that are less than 44 px in either direction; a box or dial counts with its label, text links not."""
    found: list[str] = page.evaluate(
        """within => [...document.querySelectorAll(`${within} :is(button, select, summary, input)`)]
            .map(e => e.matches("[type=radio], [type=checkbox]") ? e.closest("label") : e)
            .filter(e => e.checkVisibility())
            .map(e => [e.outerHTML.slice(0, 80), e.getBoundingClientRect()])
            .filter(([, box]) => box.width < 44 || box.height < 43.9)
            .map(([html, box]) => `${box.width} x ${box.height}: ${html}`)""",
        within,
    )
    return found


def axe_finds(page: Page) -> list[tuple[str, list[str]]]:
    """What axe-core says of the page as it stands. The page's context must let it in (bypass_csp)."""
    page.evaluate((resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8"))
    found = page.evaluate("rules => axe.run({runOnly: rules, preload: false})", RULES)
    return [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found["violations"]]
