"""Runs the migration scripts on the connection given in the settings' ``connection``.

The transaction is the caller's: all scripts run within one, so that a record is never left
half way.
"""

from alembic import context

context.configure(connection=context.config.attributes["connection"])
context.run_migrations()
