"""Price the blocks of a plan that are not there yet, here or on a cluster."""

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from itertools import islice
from typing import TYPE_CHECKING, Any

from shipcalc.bulk.home import answers_at_home
from shipcalc.bulk.overseas import answers_overseas
from shipcalc.bulk.parts import Parts
from shipcalc.bulk.plan import Block, Plan
from shipcalc.bulk.table import table_of
from shipcalc.errors import WrongInput, asked
from shipcalc.quote.network.territory import is_home

if TYPE_CHECKING:
    import pyarrow as pa

Progress = Callable[[int], None]
ANSWERS_WITHIN_S = 10  # a scheduler that is there


def rows_of_block(plan: Plan, block: Block) -> "pa.Table":
    """Return the rows of one block."""
    first = plan.destinations.places[block.places.start]
    over_the_sea = plan.crosses_the_sea and not is_home(first.country, first.subdivision)
    answers = answers_overseas(plan, block) if over_the_sea else answers_at_home(plan, block)
    return table_of(plan, block, answers)


def priced_here(plan: Plan, blocks: tuple[Block, ...], parts: Parts) -> "Iterator[pa.Table]":
    """Yield the rows of the blocks in order; a block that is not there yet is priced, and kept, when it is asked for."""
    for block in blocks:
        table = parts.find(block)
        if table is None:
            table = rows_of_block(plan, block)
            parts.write(block, table)
        yield table


def one_ahead(tables: "Iterator[pa.Table]") -> "Iterator[pa.Table]":
    """Yield the same tables; while one is used, a thread makes the next: most of both is arithmetic outside Python's lock."""
    with ThreadPoolExecutor(1) as maker:
        following = maker.submit(next, tables, None)
        while (table := following.result()) is not None:
            following = maker.submit(next, tables, None)
            yield table


def price_on_cluster(plan: Plan, blocks: tuple[Block, ...], parts: Parts, progress: Progress, address: str) -> None:
    """Have the workers of a Dask cluster price the blocks. Raises WrongInput where there is no cluster, or no Dask.

    The plan is sent once; what comes back is one block's rows after the other, and this process writes them: the workers
    need not see this machine's disk.
    """
    client = _client(address)
    try:
        missing = [block for block in blocks if parts.find(block) is None]
        for block in blocks:
            if block not in missing:
                progress(block.rows(len(plan.trailers)))
        with client.as_current():
            _collect(client, plan, missing, parts, progress)
    finally:
        client.close()


def _collect(client: Any, plan: Plan, missing: list[Block], parts: Parts, progress: Progress) -> None:
    from distributed import as_completed

    workers = max(1, sum(client.nthreads().values()))
    sent = client.scatter(plan, broadcast=True)
    waiting = iter(missing)
    # No more than two blocks a worker at once: the scheduler never holds the whole table.
    first = [
        client.submit(rows_of_block, sent, block, key=_name(parts, block)) for block in islice(waiting, 2 * workers)
    ]
    blocks = {_name(parts, block): block for block in missing}
    running = as_completed(first)
    for future in running:
        block = blocks[future.key]
        parts.write(block, future.result())
        progress(block.rows(len(plan.trailers)))
        future.release()
        following = next(waiting, None)
        if following is not None:
            running.add(client.submit(rows_of_block, sent, following, key=_name(parts, following)))


def _name(parts: Parts, block: Block) -> str:
    return f"{parts.folder.name}-{block.number}"


def _client(address: str) -> Any:
    try:
        from distributed import Client
    except ImportError:
        raise WrongInput(
            "Dask is not installed", where=asked("dask"), remedy="pip install 'shipcalc[dask]', here and on the workers"
        ) from None
    try:
        return Client(address, timeout=ANSWERS_WITHIN_S, set_as_default=False)
    except (OSError, ValueError, TypeError) as error:
        raise WrongInput(
            f"no scheduler answers at {address} ({type(error).__name__})",
            where=asked("dask"),
            remedy="start one with `dask scheduler`, its workers with `dask worker ADDRESS`, and give its address",
        ) from None
