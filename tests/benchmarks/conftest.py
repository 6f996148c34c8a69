"""What is measured: the invented dealer's books, read once."""

from collections.abc import Callable

import pytest

from shipcalc.actions.quoting import Books, open_books
from shipcalc.actions.sources import Sources, invented_sources


@pytest.fixture(scope="session")
def sources() -> Sources:
    return invented_sources()


@pytest.fixture(scope="session")
def size(pytestconfig: pytest.Config) -> Callable[[int, int], int]:
    """Return what chooses how much there is to do: `size(measured, tried)`, the second where nothing is measured."""
    is_measured = pytestconfig.getoption("benchmark_enable") or not pytestconfig.getoption("benchmark_disable")
    return lambda measured, tried: measured if is_measured else tried


@pytest.fixture(scope="session")
def books(sources: Sources) -> Books:
    return open_books(sources)
