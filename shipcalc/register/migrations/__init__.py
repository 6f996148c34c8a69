"""How the tables of the register came to be as they are: one step a file in `versions/`, run by Alembic (`schema.upgrade`)."""
