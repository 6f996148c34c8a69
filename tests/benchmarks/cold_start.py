"""How long a user waits at a cold start, and how much memory it takes: run by hand, `python tests/benchmarks/cold_start.py [times]`.

The yardstick is `python -c "import numpy"`, measured in the same run and in turns, because machines are noisy.
"""

import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

YARDSTICK = 'python -c "import numpy"'
QUOTE = ["quote", "--vehicle", "HV-1042", "--to", "59715"]
OVERSEAS = ["quote", "--vehicle", "HV-1042", "--to", "Bremen, Germany"]


def commands(out: Path) -> dict[str, list[str]]:
    """Return what is measured, by the words it is shown with."""
    program = str(Path(sys.executable).with_name("shipcalc"))
    return {
        YARDSTICK: [sys.executable, "-c", "import numpy"],
        "shipcalc quote": [program, *QUOTE],
        "shipcalc quote --out": [program, *QUOTE, "--out", str(out)],
        "shipcalc quote overseas": [program, *OVERSEAS],
    }


def one_run(words: list[str]) -> tuple[float, float]:
    """Return the wall time in seconds and the peak memory in megabytes of one process."""
    began = time.perf_counter()
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    took = time.perf_counter() - began
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, f"{words} ended with {process.returncode}"
    return took, used.ru_maxrss / 1024


def main() -> None:
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 11
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        out = Path(folder) / "out"
        measured: dict[str, list[tuple[float, float]]] = {name: [] for name in commands(out)}
        for words in commands(out).values():  # once without counting, so that all files are in memory
            one_run(words)
        for _ in range(times):
            for name, words in commands(out).items():
                shutil.rmtree(out, ignore_errors=True)
                measured[name].append(one_run(words))
    medians = {name: statistics.median(took for took, _ in runs) for name, runs in measured.items()}
    lines = [f"{times} runs each, in turns; median, quickest, ratio of the medians to the yardstick, peak memory"]
    for name, runs in measured.items():
        quickest, peak = min(took for took, _ in runs), max(memory for _, memory in runs)
        lines.append(
            f"{name:28} {medians[name] * 1000:7.0f} ms {quickest * 1000:7.0f} ms"
            f" {medians[name] / medians[YARDSTICK]:6.2f} × {peak:6.0f} MB"
        )
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    lines.append(f"(this script itself: {own:.0f} MB; a process's peak is never told as less than its parent's)")
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
