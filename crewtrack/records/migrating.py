"""Schema revisions: making a record's tables, and bringing an older record's up to date.

Alembic is set up here, in code, and imported only when there is something to migrate. The
scripts lie in ``crewtrack/migrations`` where the program is installed, in ``migrations`` at the
top of a checkout.
"""

from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Final

from sqlalchemy import Connection, Engine

import crewtrack
from crewtrack.records.tables import APPLICATION_ID

if TYPE_CHECKING:
    from alembic.config import Config

REVISIONS: Final = ("0001", "0002", "0003")
"""All schema revisions, numbered in the order in which they were made: a higher one is newer.
The last is that of today's tables. They stand here so that opening a record that is up to date
needs no look at the scripts."""

_ONE_AT_A_TIME: Final = Lock()
"""Alembic keeps what it is at in its module, for all threads."""


def script_folder() -> Path:
    """Where the migration scripts lie."""
    package = Path(crewtrack.__file__).parent
    folders = (package / "migrations", package.parent / "migrations")
    return next(folder for folder in folders if (folder / "env.py").is_file())


def settings(connection: Connection | None = None) -> "Config":
    """Alembic's settings; the scripts run on ``connection``, within its transaction."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(script_folder()).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def newest() -> str:
    """The schema revision of today's tables."""
    return REVISIONS[-1]


def revision_of(connection: Connection) -> str:
    """The schema revision of a record; "" where it has none."""
    found = connection.exec_driver_sql("SELECT version_num FROM alembic_version")
    return str(found.scalar_one_or_none() or "")


def make_tables(engine: Engine) -> None:
    """Make the tables of the newest revision in an empty database, and mark it as ours."""
    with engine.connect() as connection:
        connection.exec_driver_sql(f"PRAGMA application_id={APPLICATION_ID}")
        _upgrade(connection)


def migrate(engine: Engine) -> None:
    """Bring a record's tables up to the newest revision: all of it or nothing."""
    with engine.connect() as connection:
        _upgrade(connection)


def _upgrade(connection: Connection) -> None:
    from alembic import command

    # First of all, since within a transaction it has no effect: a table that is made anew for a
    # changed column must not take its children along.
    connection.exec_driver_sql("PRAGMA foreign_keys=OFF")
    connection.exec_driver_sql("BEGIN IMMEDIATE")
    try:
        with _ONE_AT_A_TIME:
            command.upgrade(settings(connection), "head")
        broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if broken:
            raise ValueError(f"the migration leaves references to nothing: {broken[:3]}")
        connection.exec_driver_sql("COMMIT")
    except BaseException:
        connection.exec_driver_sql("ROLLBACK")
        raise
