"""Striking out: a revision may say that from it on its fact is not there.

A column is added and nothing is made anew, so that indexes and triggers stay as they are, and so
do the digests: they are of what was recorded, and nothing was struck out before.
"""

from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

TABLES = (
    "people", "assignments", "vessels", "aircraft", "sorties", "performances", "signoffs",
    "certificates", "waivers", "standdowns",
)  # fmt: skip


def upgrade() -> None:
    """Add the column to every table of facts."""
    for table in TABLES:
        # In SQL, since Alembic adds no column that brings a CHECK along where SQLite would.
        op.execute(
            f"ALTER TABLE {table} ADD COLUMN struck INTEGER"
            f" CONSTRAINT ck_{table}_struck_later"
            " CHECK (struck IS NULL OR (struck = 1 AND revision > 1))"
        )
