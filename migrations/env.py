"""Alembic's entry: runs the revisions on the connection that the program hands over.

The program (studio/storage/migrate.py) opens the transaction, checks foreign keys and commits; so a
migration that fails leaves nothing behind.
"""

from alembic import context

from studio.storage.rules import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
context.run_migrations()
