"""Photos of a job: where each was hung, and where it was taken down again."""

from alembic import op
from sqlalchemy import Column, Integer, Text

revision = "0002"
down_revision = "0001"

_SQLITE = """
CREATE TRIGGER photo_stays_{what} BEFORE {what} ON photo
BEGIN SELECT RAISE(ABORT, 'a row of photo is never changed'); END
"""
_POSTGRES = """
CREATE TRIGGER photo_stays BEFORE UPDATE OR DELETE ON photo
FOR EACH ROW EXECUTE FUNCTION gaugerod_stays()
"""


def upgrade() -> None:
    """Make the table of photos."""
    op.create_table(
        "photo",
        Column("job", Text, primary_key=True),
        Column("m", Integer, primary_key=True, autoincrement=False),
        Column("sha256", Text, nullable=False),
        Column("type", Text, nullable=False),
        Column("size", Integer, nullable=False),
        Column("subject", Text, nullable=False),
        Column("name", Text, nullable=False),
        Column("who", Text, nullable=False),
        Column("at", Text, nullable=False),
        Column("note", Text, nullable=False),
        Column("down", Integer, nullable=False),
    )
    if op.get_bind().dialect.name == "postgresql":
        op.execute(_POSTGRES)
    else:
        for what in ("UPDATE", "DELETE"):
            op.execute(_SQLITE.format(what=what))
