"""Documents as rows of revisions that nobody can change."""

from alembic import op
from sqlalchemy import Column, Integer, Text

revision = "0001"
down_revision = None

_SQLITE = """
CREATE TRIGGER revision_stays_{what} BEFORE {what} ON revision
BEGIN SELECT RAISE(ABORT, 'a revision is never changed'); END
"""
_POSTGRES = (
    """
CREATE FUNCTION gaugerod_stays() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION 'a row of % is never changed', TG_TABLE_NAME; END $$
""",
    """
CREATE TRIGGER revision_stays BEFORE UPDATE OR DELETE ON revision
FOR EACH ROW EXECUTE FUNCTION gaugerod_stays()
""",
)


def upgrade() -> None:
    """Make the table of revisions."""
    op.create_table(
        "revision",
        Column("kind", Text, primary_key=True),
        Column("id", Text, primary_key=True),
        Column("n", Integer, primary_key=True, autoincrement=False),
        Column("token", Text, nullable=False),
        Column("who", Text, nullable=False),
        Column("at", Text, nullable=False),
        Column("note", Text, nullable=False),
        Column("title", Text, nullable=False),
        Column("changed", Text, nullable=False),
        Column("restores", Integer),
        Column("document", Text, nullable=False),
        Column("day", Text, nullable=False),
        Column("sha256", Text, nullable=False),
    )
    op.create_index("revision_token", "revision", ["kind", "id", "token"], unique=True)
    if op.get_bind().dialect.name == "postgresql":
        for statement in _POSTGRES:
            op.execute(statement)
    else:
        for what in ("UPDATE", "DELETE"):
            op.execute(_SQLITE.format(what=what))
