"""The same surroundings for every test, whatever machine it runs on.

No variable of the program's own is set, the user's folders lie in a temporary one, and the
machine's time zone is one that no test uses, so that an answer that leans on it shows.
"""

import os
import time
from collections.abc import Iterator
from pathlib import Path
from zoneinfo import ZoneInfo, reset_tzpath

import pytest
from hypothesis import HealthCheck, settings

from crewtrack.office import backup_settings
from crewtrack.records import credentials

FAR_ZONE = "Pacific/Kiritimati"

for name in [name for name in os.environ if name.startswith("CREWTRACK_")]:
    del os.environ[name]
for name in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "LINES"):
    os.environ.pop(name, None)
os.environ["QT_QPA_PLATFORM"] = "offscreen"
os.environ["TZ"] = FAR_ZONE
if hasattr(time, "tzset"):
    time.tzset()
# Zones come from the pinned tzdata package, in tests that never open the office too.
reset_tzpath(to=())
ZoneInfo.clear_cache()

settings.register_profile(
    "always-the-same",
    derandomize=True,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("always-the-same")


@pytest.fixture(scope="session", autouse=True)
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The user's folders (records, settings, logs) lie in a temporary one for the whole run.

    There, backups are switched off: tests of other things need not wait for them, nor find them
    beside the records. Those of backups have settings of their own.
    """
    folder = tmp_path_factory.mktemp("home")
    backups = folder / "xdg_config_home" / "crewtrack" / "backups.toml"
    backups.parent.mkdir(parents=True)
    backups.write_text("days = 0\nweeks = 0\nmonths = 0\n", encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(backup_settings, "settings_file", lambda: backups)
        for name in ("HOME", "USERPROFILE", "LOCALAPPDATA", "APPDATA"):
            patch.setenv(name, str(folder))
        for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME"):
            patch.setenv(name, str(folder / name.lower()))
        yield


@pytest.fixture(scope="session", autouse=True)
def cheap_passphrases() -> Iterator[None]:
    """Keys are wrapped as cheaply as the program takes them at all: nobody waits for that."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(credentials, "USUAL", credentials.Cost(*credentials.LEAST))
        yield


@pytest.fixture
def backups_file(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The file of the test's own settings of backups; it is not there, so they are the usual."""
    file = tmp_path_factory.mktemp("settings") / "backups.toml"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(backup_settings, "settings_file", lambda: file)
        yield file
