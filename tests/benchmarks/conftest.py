"""What is measured: the invented dealer's books, read once."""

import pytest

from shipcalc.actions.quoting import Books, open_books
from shipcalc.actions.sources import Sources, invented_sources


@pytest.fixture(scope="session")
def sources() -> Sources:
    return invented_sources()


@pytest.fixture(scope="session")
def books(sources: Sources) -> Books:
    return open_books(sources)
