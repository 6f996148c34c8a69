"""How the desk bears many at once: run by hand, `python tests/benchmarks/desk_load.py [clients] [seconds] [pause]`.

Each client asks for a quote to another ZIP, waits for the answer, and asks on after `pause` seconds (0: at once). The desk runs in a process of
its own, the clients in this one, all on the loopback. Told are answers a second, errors, the median and the 95th percentile of the
waiting, and what memory the desk takes at the beginning and at the end.
"""

import asyncio
import json
import re
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path

from shipcalc.places.gazetteer.pages import all_postal_codes

ROOT = Path(__file__).parents[2]


async def ask(reader: asyncio.StreamReader, writer: asyncio.StreamWriter, port: int, zip_code: str) -> int:
    """Ask once over an open connection and return the status."""
    body = json.dumps({"vehicles": ["HV-1042"], "to": zip_code}).encode()
    head = f"POST /api/quote HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nContent-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n"
    writer.write(head.encode() + body)
    answer = (await reader.readuntil(b"\r\n\r\n")).decode()
    length = re.search(r"content-length: (\d+)", answer, re.IGNORECASE)
    assert length is not None
    await reader.readexactly(int(length[1]))
    return int(answer.split()[1])


async def client(
    number: int, zips: Sequence[str], port: int, until: float, pause: float, waits: list[float], errors: list[int]
) -> None:
    """Ask until the time is over."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    turn = number
    while time.perf_counter() < until:
        began = time.perf_counter()
        status = await ask(reader, writer, port, zips[turn * 37 % len(zips)])
        waits.append(time.perf_counter() - began)
        if status not in (200, 409):  # 409: no road leads there
            errors.append(status)
        turn += 1
        await asyncio.sleep(pause)
    writer.close()


def memory_mb(pid: int) -> float:
    """Return the memory of a process that is in use, in megabytes (Linux)."""
    told = Path(f"/proc/{pid}/status").read_text()
    found = re.search(r"VmRSS:\s+(\d+)", told)
    assert found is not None
    return int(found[1]) / 1024


async def load(
    zips: Sequence[str], port: int, clients: int, seconds: float, pause: float
) -> tuple[list[float], list[int]]:
    """Let so many clients ask for so long; return their waits and the statuses that were none of success."""
    waits: list[float] = []
    errors: list[int] = []
    until = time.perf_counter() + seconds
    await asyncio.gather(*(client(one * 800, zips, port, until, pause, waits, errors) for one in range(clients)))
    return waits, errors


def main() -> None:
    clients, seconds, pause = (float(word) for word in (sys.argv[1:] + ["50", "20", "0"][len(sys.argv) - 1 :])[:3])
    zips = [
        str(code) for code, used in zip(*(all_postal_codes().codes, all_postal_codes().in_use), strict=True) if used
    ]
    program = str(Path(sys.executable).with_name("shipcalc"))
    desk = subprocess.Popen([program, "desk", "--no-browser"], cwd=ROOT, stderr=subprocess.PIPE, text=True)
    assert desk.stderr is not None
    told = ""
    while "the desk is open" not in told:
        told = desk.stderr.readline()
        assert desk.poll() is None, "the desk did not open"
    found = re.search(r":(\d+)/", told)
    assert found is not None
    port = int(found[1])
    try:
        asyncio.run(load(zips, port, 2, 2, 0))  # not counted
        before = memory_mb(desk.pid)
        waits, errors = asyncio.run(load(zips, port, int(clients), seconds, pause))
        after = memory_mb(desk.pid)
    finally:
        desk.terminate()
        desk.wait()
    waits.sort()
    middle, late = (waits[int(len(waits) * share)] * 1000 for share in (0.5, 0.95))
    sys.stdout.write(
        f"{len(waits) / seconds:,.0f} answers a second, {len(errors)} errors\n"
        f"median {middle:.0f} ms, 95th percentile {late:.0f} ms\n"
        f"memory {before:.0f} MB, at the end {after:.0f} MB\n"
    )


if __name__ == "__main__":
    main()
