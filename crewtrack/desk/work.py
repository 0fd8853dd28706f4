"""Long work, off the screen's thread: with progress, and a cancel that leaves nothing half done."""

from collections.abc import Callable
from threading import Event, Thread
from typing import Any, TypeVar

from PySide6.QtCore import QEventLoop, QObject, Signal

Progress = Callable[[str, int, int], None]
"""What is being done, how much of it is done, and how much there is (0: nobody knows)."""


Returned = TypeVar("Returned")


class Cancelled(Exception):
    """The work was called off; raised inside it, where it next tells of its progress."""


class Work(QObject):
    """One piece of work. ``done`` carries what it returned, ``failed`` what it raised; exactly one
    of the two comes, on the screen's thread."""

    progress = Signal(str, int, int)
    done = Signal(object)
    failed = Signal(object)

    def __init__(self, function: Callable[[Progress], Any], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._function = function
        self._stop = Event()
        self._thread = Thread(target=self._run, daemon=True)

    def start(self) -> "Work":
        """Begin."""
        self._thread.start()
        return self

    def cancel(self) -> None:
        """Ask it to stop; it does where it next tells of its progress."""
        self._stop.set()

    def wait(self) -> None:
        """Stay until the thread has ended."""
        if self._thread.is_alive():
            self._thread.join()

    def _run(self) -> None:
        try:
            result = self._function(self._told)
        except Exception as error:  # noqa: BLE001 - handed to the screen's thread, which tells it
            self.failed.emit(error)
        else:
            self.done.emit(result)

    def _told(self, what: str, done: int, total: int) -> None:
        if self._stop.is_set():
            raise Cancelled
        self.progress.emit(what, done, total)


def painted_through(function: Callable[[], Returned]) -> Returned:
    """What a function returns, or raises: it runs on another thread, while the screen goes on
    being painted and keys and clicks wait."""
    ended: list[Callable[[], Returned]] = []
    loop = QEventLoop()

    def done(result: Returned) -> None:
        ended.append(lambda: result)
        loop.quit()

    def failed(error: Exception) -> None:
        ended.append(lambda: _raised(error))
        loop.quit()

    work = Work(lambda _: function())
    work.done.connect(done)
    work.failed.connect(failed)
    work.start()
    while not ended:
        loop.exec(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)
    work.wait()
    return ended[0]()


def _raised(error: Exception) -> Any:
    raise error
