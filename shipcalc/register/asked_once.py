"""A quote that is asked to be kept twice under one key is kept once: whoever lost the answer may ask again without fear.

After the draft standard "The Idempotency-Key HTTP Header Field" (IETF, draft-ietf-httpapi-idempotency-key-header).
"""

from datetime import datetime, timedelta

from sqlalchemy import Connection, delete, insert, select

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass
from shipcalc.register.tables import asked_once

KEPT_DAYS = 7


@dataclass(frozen=True, slots=True)
class AskedKey:
    """The asker's own key, and the digest of what was asked with it."""

    key: str
    body_sha256: str


def kept_before(connection: Connection, asked: AskedKey) -> str | None:
    """Return the number that was kept under a key, if any. Raises WrongInput where something else was asked with it."""
    row = connection.execute(select(asked_once).where(asked_once.c.key == asked.key)).first()
    if row is None:
        return None
    if row.body_sha256 != asked.body_sha256:
        raise WrongInput("this key was used for another order", where="Idempotency-Key", remedy="take a new key")
    number: str = row.number
    return number


def remember(connection: Connection, asked: AskedKey, number: str, *, at: str) -> None:
    """Remember what was kept under a key, and forget keys of more than a week ago."""
    since = datetime.fromisoformat(at) - timedelta(days=KEPT_DAYS)
    connection.execute(delete(asked_once).where(asked_once.c.at < since.isoformat().replace("+00:00", "Z")))
    connection.execute(
        insert(asked_once), {"key": asked.key, "body_sha256": asked.body_sha256, "number": number, "at": at}
    )
