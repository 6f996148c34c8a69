"""Six hundred and sixty requests are answered as they were when `data/kept_answers.txt` was written.

A difference is a change of some price, day, charge, paper or choice. Where it is meant, read it and write the file anew:
`python tests/quote/kept_answers.py --write`. What is right is held by the other tests; this one holds what stays.
"""

import importlib.util
from pathlib import Path

_SPEC = importlib.util.spec_from_file_location("kept_answers", Path(__file__).with_name("kept_answers.py"))
assert _SPEC is not None
assert _SPEC.loader is not None
kept_answers = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(kept_answers)


def test_the_requests_are_answered_as_before() -> None:
    kept = kept_answers.FILE.read_text(encoding="utf-8").splitlines()
    now = "\n".join(kept_answers.answers()).splitlines()
    changed = [f"{before}\n→ {after}" for before, after in zip(kept, now, strict=False) if before != after]
    assert changed[:5] == []
    assert len(kept) == len(now)
    assert sum(not line.startswith(" ") for line in kept) == kept_answers.COUNT + kept_answers.FETCHED_OR_KEPT
