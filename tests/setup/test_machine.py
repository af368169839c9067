"""What the machine must bring, and the one command that brings it."""

from __future__ import annotations

import pytest

from combobook import bootstrap, machine
from combobook.machine import SHEETS, TESTS


def only(monkeypatch: pytest.MonkeyPatch, *programs: str) -> None:
    monkeypatch.setattr(machine.shutil, "which", lambda name: f"/bin/{name}" if name in programs else None)


@pytest.mark.parametrize(
    ("manager", "needs", "command"),
    [
        ("apt-get", (SHEETS,), "sudo apt-get install -y libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"),
        ("apt-get", (TESTS,), "sudo apt-get install -y chromium poppler-utils libzbar0 libimage-exiftool-perl"),
        ("dnf", (SHEETS,), "sudo dnf install -y pango harfbuzz"),
        ("pacman", (SHEETS, TESTS), "sudo pacman -S --noconfirm pango chromium poppler zbar perl-image-exiftool"),
        ("brew", (SHEETS,), "brew install pango"),
    ],
)
def test_the_command_is_that_of_the_system_at_hand(
    monkeypatch: pytest.MonkeyPatch, manager: str, needs: tuple[str, ...], command: str
) -> None:
    only(monkeypatch, manager)
    assert machine.command_for(needs) == command


def test_without_a_known_package_manager_it_is_said_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    only(monkeypatch)
    assert machine.command_for((SHEETS,)).startswith("install Pango 1.44 or newer")


def test_this_machine_has_all_the_tests_need() -> None:
    assert machine.missing((SHEETS, TESTS)) == ()


def test_a_library_that_cannot_be_opened_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(machine, "_SHEET_LIBRARIES", (*machine._SHEET_LIBRARIES, ("libnowhere.so.9",)))
    assert machine.missing((SHEETS, TESTS)) == (SHEETS,)


def test_a_program_that_is_not_there_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    only(monkeypatch, "chromium", "pdftotext", "pdftoppm")
    assert machine.missing((SHEETS, TESTS)) == (TESTS,)


class Apt:
    """Stands in for running commands: notes them, and gives back what is asked for."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, root: bool, fails: int = 0) -> None:
        self.commands: list[str] = []
        self.fails = fails
        monkeypatch.setattr(machine, "_leave_to_install", lambda: ["as-root"] if root else None)
        monkeypatch.setattr(machine, "_quiet", self.quiet)
        only(monkeypatch, "apt-get")

    def quiet(self, command: list[str], show: bool = False) -> bool:
        self.commands.append(" ".join(word for word in command if not word.startswith(("-", "DPkg"))))
        self.fails -= 1
        return self.fails < 0


def test_with_root_apt_installs_it_without_a_question(monkeypatch: pytest.MonkeyPatch) -> None:
    apt = Apt(monkeypatch, root=True)
    assert machine.install_with_apt(["a", "b"])
    assert apt.commands == ["as-root apt-get install a b"]


def test_the_package_lists_are_fetched_only_when_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    apt = Apt(monkeypatch, root=True, fails=1)
    assert machine.install_with_apt(["a"])
    assert apt.commands == ["as-root apt-get install a", "as-root apt-get update", "as-root apt-get install a"]


def test_without_root_nothing_is_run_and_set_up_names_the_command(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    apt = Apt(monkeypatch, root=False)
    monkeypatch.setattr(machine, "missing", lambda needs: needs)
    with pytest.raises(SystemExit) as stopped:
        bootstrap._meet((SHEETS,))
    assert stopped.value.code == 3
    assert apt.commands == []
    assert capsys.readouterr().err == (
        "combobook set-up: this machine lacks what combobook needs here. Run this, then the same command again:\n"
        "    sudo apt-get install -y libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    )


@pytest.mark.parametrize(
    ("arguments", "needs"),
    [(["check"], ()), (["publish"], (SHEETS,)), (["show", "x"], (SHEETS,)), (["publish", "--help"], ()),
     (["start", "publish"], ()), ([], ()), (["--version"], ())],
)
def test_only_what_makes_sheets_asks_for_their_libraries(
    monkeypatch: pytest.MonkeyPatch, arguments: list[str], needs: tuple[str, ...]
) -> None:
    from combobook import __main__ as command
    from combobook import cli

    asked: list[object] = []
    monkeypatch.setattr(command.sys, "argv", ["combobook", *arguments])
    monkeypatch.setattr(command.bootstrap, "prepare", lambda module, needs: asked.append(needs))
    monkeypatch.setattr(cli, "run", lambda arguments: 0)
    with pytest.raises(SystemExit):
        command.main()
    assert asked == [needs]
