"""What went wrong, as it is told in the window."""

import sys
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from crewtrack.desk import troubles
from crewtrack.desk.troubles import DefectTeller, trouble_told
from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.phrases import phrase


@pytest.fixture
def teller(monkeypatch: pytest.MonkeyPatch, qapp: QApplication) -> DefectTeller:
    monkeypatch.setattr(troubles, "written_down", lambda _: "Its details are in defect.txt.")
    return DefectTeller()


def raised(error: BaseException) -> BaseException:
    try:
        raise error
    except BaseException as caught:  # noqa: BLE001 - it is what was just raised
        return caught


def tell(teller: DefectTeller, error: BaseException) -> None:
    teller(type(error), error, error.__traceback__)


def test_an_error_that_nobody_expected_is_told_in_a_panel(
    teller: DefectTeller, panels: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    tell(teller, raised(KeyError("boat")))
    assert panels == [
        "This is a defect of the program, not of what you gave it: KeyError."
        " Its details are in defect.txt."
    ]
    assert capsys.readouterr().err == ""


def test_one_that_comes_again_is_told_once(teller: DefectTeller, panels: list[str]) -> None:
    for _ in range(3):
        tell(teller, raised(KeyError("boat")))
    assert len(panels) == 1


def test_an_interruption_is_left_to_python(
    teller: DefectTeller, panels: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    left: list[type[BaseException]] = []
    monkeypatch.setattr(sys, "__excepthook__", lambda kind, *_: left.append(kind))
    tell(teller, raised(KeyboardInterrupt()))
    assert (left, panels) == ([KeyboardInterrupt], [])


def test_a_record_s_cure_is_one_that_a_window_has() -> None:
    cure = phrase("is damaged; put the last backup back with 'crewtrack restore FILE'")
    assert trouble_told(RecordUnusable(cure)) == "is damaged; put the last backup in its place"


def test_every_fault_has_its_line() -> None:
    told = trouble_told(Refused(Fault("a.csv:2", "", "one", ""), Fault("a.csv:3", "", "two", "")))
    assert told.splitlines() == ["a.csv:2: one", "a.csv:3: two"]


def test_what_the_system_refuses_names_its_file() -> None:
    error = OSError(28, "No space left on device", str(Path("unit") / "people.csv"))
    assert trouble_told(error).endswith("people.csv: no space left on device")
