"""Read by Alembic: the steps run on the connection, and in the transaction, that `schema.upgrade` gives."""

from alembic import context

from shipcalc.register.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    transactional_ddl=False,
    render_as_batch=True,
)
context.run_migrations()
