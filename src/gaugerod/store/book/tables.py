"""The tables of a book, as the newest schema has them.

The columns `who` and `token` are the fields `by` and `key` of a revision, which are words of SQL.
"""

from sqlalchemy import Column, Integer, MetaData, Table, Text

METADATA = MetaData()

REVISION = Table(
    "revision",
    METADATA,
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

PHOTO = Table(
    "photo",
    METADATA,
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
"""A row hangs a photo on a wall, a hole or a finding, or (`down`) takes it off again."""
