"""The schema of a book: made or brought up to date when the book is opened."""

from sqlalchemy import Connection, Engine, inspect, text

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.store.book.connect import alone, writing

STEPS = ("0001", "0002")
"""Every step there is, in order; the last is what this program writes."""
_VERSION = text("SELECT version_num FROM alembic_version")


def bring_up_to_date(engine: Engine, *, name: str, new: bool = True) -> None:
    """Make the tables, or change older ones, in one write.

    Raises
    ------
    BookError
        A newer program made the book, something else made the database, or nothing is there
        and nothing `new` is wanted.
    """
    with writing(engine) as connection:
        alone(connection, "gaugerod schema")
        found = schema_of(connection, name=name)
        if found is None and not new:
            raise BookError(Message("book.none", name=name))
        if found != STEPS[-1]:
            _upgrade(connection)


def schema_of(connection: Connection, *, name: str) -> str | None:
    """Return the step that a database stands at; None for an empty one.

    Raises
    ------
    BookError
        A newer program made it, or something else did.
    """
    there = inspect(connection).get_table_names()
    if not there:
        return None
    found = connection.scalar(_VERSION) if "alembic_version" in there else None
    if found is None or not str(found).isdigit():
        raise BookError(Message("book.not-ours", name=name))
    if found not in STEPS:
        raise BookError(Message("book.newer", name=name, found=int(found), known=int(STEPS[-1])))
    return str(found)


def _upgrade(connection: Connection) -> None:
    # A third of a second to load, and hardly ever needed.
    from alembic import command  # noqa: PLC0415  (see above)
    from alembic.config import Config  # noqa: PLC0415  (see above)

    config = Config()
    config.set_main_option("script_location", "gaugerod.store.book:migrations")
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
