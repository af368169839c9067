"""What the machine itself must bring: the libraries that draw sheets, the programs that tests read back with.

Leaf module, standard library alone. Package names are from memory except Debian's, which the tests' own
machine confirms.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
import sys

SHEETS = "sheets"
TESTS = "tests"

# WeasyPrint opens these by name; where it finds one of a row's names it is content.
_SHEET_LIBRARIES = (
    ("libgobject-2.0.so.0", "libgobject-2.0.0.dylib", "libgobject-2.0-0.dll", "libgobject-2.0-0"),
    ("libpango-1.0.so.0", "libpango-1.0.dylib", "libpango-1.0-0.dll", "libpango-1.0-0"),
    ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib", "libpangoft2-1.0-0.dll", "libpangoft2-1.0-0"),
    ("libfontconfig.so.1", "libfontconfig.1.dylib", "libfontconfig-1.dll", "libfontconfig-1"),
    ("libharfbuzz-subset.so.0", "libharfbuzz-subset.0.dylib", "libharfbuzz-subset-0.dll", "libharfbuzz-subset-0"),
)
_TAG_READER = ("libzbar.so.0", "libzbar.0.dylib", "libzbar.dylib", "libzbar-64.dll")
_TEST_PROGRAMS = (("chromium", "chromium-browser"), ("pdftotext",), ("pdftoppm",), ("exiftool",))

_PACKAGES = {
    "apt-get": {
        SHEETS: "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
        TESTS: "chromium poppler-utils libzbar0 libimage-exiftool-perl",
    },
    "dnf": {SHEETS: "pango harfbuzz", TESTS: "chromium poppler-utils zbar perl-Image-ExifTool"},
    "zypper": {
        SHEETS: "libpango-1_0-0 libharfbuzz-subset0",
        TESTS: "chromium poppler-tools libzbar0 exiftool",
    },
    "pacman": {SHEETS: "pango", TESTS: "chromium poppler zbar perl-image-exiftool"},
    "apk": {SHEETS: "pango harfbuzz-subset", TESTS: "chromium poppler-utils zbar exiftool"},
    "brew": {SHEETS: "pango", TESTS: "chromium poppler zbar exiftool"},
}
_INSTALL = {
    "apt-get": "sudo apt-get install -y",
    "dnf": "sudo dnf install -y",
    "zypper": "sudo zypper install -y",
    "pacman": "sudo pacman -S --noconfirm",
    "apk": "sudo apk add",
    "brew": "brew install",
}


def missing(needs: tuple[str, ...]) -> tuple[str, ...]:
    """Of `needs` (SHEETS, TESTS), those that this machine cannot meet as it is."""
    met = {SHEETS: _draws_sheets, TESTS: _reads_back}
    return tuple(need for need in needs if not met[need]())


def sheets_drawn_by() -> str:
    """The version of the Pango that sets the letters of sheets, in figures; empty where it cannot be asked."""
    for name in _SHEET_LIBRARIES[1]:
        try:
            return str(ctypes.CDLL(name).pango_version())
        except (OSError, AttributeError):
            continue
    return ""


def command_for(needs: tuple[str, ...]) -> str:
    """The one command that brings `needs` on this machine; without a known package manager, words instead."""
    for manager, install in _INSTALL.items():
        if shutil.which(manager):
            return " ".join([install, *_packages(manager, needs)])
    things = {
        SHEETS: "Pango 1.44 or newer with HarfBuzz and Fontconfig (on Windows: MSYS2's mingw-w64-x86_64-pango)",
        TESTS: "Chromium, Poppler's command-line programs, the zbar library and exiftool",
    }
    return "install " + "; and ".join(things[need] for need in needs)


def provide(needs: tuple[str, ...]) -> bool:
    """Install `needs` with apt where that is possible without a question; True when they are met afterwards."""
    packages = _packages("apt-get", needs) if shutil.which("apt-get") else []
    return bool(packages) and install_with_apt(packages) and not missing(needs)


def install_with_apt(packages: list[str]) -> bool:
    """True when apt installed `packages`; False where it may not (no root, no passwordless sudo) or failed."""
    lead = _leave_to_install()
    if lead is None or not shutil.which("apt-get"):
        return False
    apt = [*lead, "apt-get", "-q", "-y", "-o", "DPkg::Lock::Timeout=300"]
    install = [*apt, "install", "--no-install-recommends", *packages]
    say("installing with apt: " + " ".join(packages))
    if _quiet(install):
        return True
    say("that failed; fetching apt's package lists and trying again")
    return _quiet([*apt, "update"]) and _quiet(install, show=True)


def say(text: str) -> None:
    """One line of set-up news on standard error."""
    sys.stderr.write("combobook set-up: %s\n" % text)
    sys.stderr.flush()


def _packages(manager: str, needs: tuple[str, ...]) -> list[str]:
    return [name for need in needs for name in _PACKAGES[manager][need].split()]


def _leave_to_install() -> list[str] | None:
    """What to put before apt-get to run it as root without a question; None where that cannot be."""
    environment = ["env", "DEBIAN_FRONTEND=noninteractive"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        return environment
    if shutil.which("sudo") and subprocess.run(["sudo", "-n", "true"], capture_output=True).returncode == 0:
        return ["sudo", "-n", *environment]
    return None


def _quiet(command: list[str], show: bool = False) -> bool:
    """Run `command`, its output shown only where it fails and `show` asks for it."""
    done = subprocess.run(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode and show:
        sys.stderr.write(done.stdout.decode("utf-8", "replace")[-2000:])
    return done.returncode == 0


def _draws_sheets() -> bool:
    return all(_opens(names) for names in _SHEET_LIBRARIES)


def _reads_back() -> bool:
    return _opens(_TAG_READER) and all(any(map(shutil.which, names)) for names in _TEST_PROGRAMS)


def _opens(names: tuple[str, ...]) -> bool:
    for name in names:
        try:
            ctypes.CDLL(name)
        except OSError:
            continue
        return True
    return False
