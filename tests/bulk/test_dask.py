"""The same blocks on a cluster: two processes, the same bytes."""

import os
import warnings
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions.lanes import LanesOrder, price_lanes
from shipcalc.bulk import plan, running
from shipcalc.errors import WrongInput

DAY = date(2026, 12, 18)


def distributed():
    """Return Dask's scheduler and workers. Without them a test is skipped, but fails where CI is set."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            import distributed as dask
    except ImportError:
        if os.environ.get("CI"):
            pytest.fail("Dask (extra dask) is not installed, and this check may not be left out in CI")
        pytest.skip("Dask (extra dask) is not installed")
    return dask


@pytest.fixture(scope="module")
def cluster() -> Iterator[str]:
    """The address of a scheduler with two workers, each a process of its own."""
    dask = distributed()
    with dask.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=50
    ) as local:
        yield local.scheduler_address


def lanes(sources, out: Path, dask: str = "") -> bytes:
    order = LanesOrder(to="states", out=out, vehicles=("HV-1042", "HV-1044", "HV-1153"), dask=dask)
    price_lanes(order, sources, as_of=DAY, told=lambda what, done, in_all: None)
    assert [path.name for path in out.parent.iterdir() if path.name.endswith(".parts")] == []
    return out.read_bytes()


@pytest.mark.filterwarnings("ignore")  # of Dask's own making
def test_two_processes_write_the_same_bytes_as_one(
    sources, tmp_path: Path, cluster: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(plan, "MOST_ROWS", 120)
    here = lanes(sources, tmp_path / "here.parquet")
    there = lanes(sources, tmp_path / "there.parquet", cluster)
    assert here == there


@pytest.mark.filterwarnings("ignore")
def test_where_no_scheduler_answers_it_is_said(sources, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    distributed()
    monkeypatch.setattr(running, "ANSWERS_WITHIN_S", 1)
    with pytest.raises(WrongInput, match=r"no scheduler answers at tcp://127\.0\.0\.1:9"):
        lanes(sources, tmp_path / "prices.csv", "tcp://127.0.0.1:9")
    with pytest.raises(WrongInput, match="no scheduler answers at nonsense"):
        lanes(sources, tmp_path / "prices.csv", "nonsense:")
