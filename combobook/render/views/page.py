"""A page still to be set: what every kind of page hands to `render.site`. Leaf of the views."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page: where it goes, which template sets it, and its finished view."""

    path: str
    """Under site/: `glazes/ferry-rust.html`."""
    template: str
    """File name in the theme's templates/."""
    title: str
    view: dict[str, object]
    """What the template may name, besides what every page has (`views.frame`)."""
    nav: str
    """Where the page stands in the header: a name of `views.frame.NAV`; else empty."""

    @property
    def root(self) -> str:
        """From the page to site/: nothing, or `../`."""
        return "../" * self.path.count("/")
