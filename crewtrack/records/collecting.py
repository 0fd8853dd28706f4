"""When Python's collector of cycles runs, and when it must not."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from typing import Final


class _Pause:
    """Keeps the collector from running while any thread wants that."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._wanted_by = 0
        self._was_on = False

    @contextmanager
    def __call__(self) -> Iterator[None]:
        with self._lock:
            if not self._wanted_by:
                self._was_on = gc.isenabled()
                gc.disable()
            self._wanted_by += 1
        try:
            yield
        finally:
            with self._lock:
                self._wanted_by -= 1
                if self._was_on and not self._wanted_by:
                    gc.enable()


no_collection: Final = _Pause()
"""Within, no cycles are looked for: among a million tuples without one, that would cost as much as
the reading itself. Several threads may be within at once."""
