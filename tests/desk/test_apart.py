"""Work in a process of its own: it raises as it would have here, is begun anew where it was ended, and outlives no desk."""

import asyncio
import os
import signal
import subprocess
import sys
import time
from concurrent.futures import BrokenExecutor

import pytest

from shipcalc.desk.apart import Apart
from shipcalc.errors import FaultyWorkbook, Problem

FAULT = Problem("trucking.xlsx › Carriers!A3", "there is no name", "write one")


def refused() -> None:
    raise FaultyWorkbook("has a fault", (FAULT,), where="trucking.xlsx", remedy="correct it")


def ended() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


async def one_after_another() -> None:
    apart = Apart()
    with pytest.raises(FaultyWorkbook) as raised:
        await apart.do(refused)
    assert raised.value.problems == (FAULT,)
    assert str(raised.value) == "trucking.xlsx: has a fault — correct it"
    with pytest.raises(BrokenExecutor):
        await apart.do(ended)
    assert await apart.do(abs, -3) == 3
    apart.close()


def test_what_it_raises_comes_whole_and_one_that_was_ended_is_begun_anew() -> None:
    asyncio.run(one_after_another())


KILLED = """
import asyncio, os
from shipcalc.desk.apart import Apart

async def main():
    print(await Apart().do(os.getpid), flush=True)
    await asyncio.sleep(60)

if __name__ == "__main__":
    asyncio.run(main())
"""


@pytest.mark.skipif(os.name != "posix", reason="processes are looked for by their numbers")
def test_2026_11_28_it_ends_with_a_desk_that_was_killed(tmp_path) -> None:
    script = tmp_path / "desk.py"
    script.write_text(KILLED)
    with subprocess.Popen([sys.executable, script], stdout=subprocess.PIPE, text=True) as desk:
        assert desk.stdout is not None
        worker = int(desk.stdout.readline())
        assert is_there(worker)
        desk.kill()
    for _ in range(100):
        if not is_there(worker):
            return
        time.sleep(0.05)
    pytest.fail("the process is still there")


def is_there(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True
