"""Run by Alembic, with the connection that the opener of the book has begun a write on."""

from alembic import context

context.configure(connection=context.config.attributes["connection"], transactional_ddl=True)
context.run_migrations()
