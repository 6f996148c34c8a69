"""A publisher's newest file from the network: only when the user asks for it."""

import urllib.error
import urllib.request
from http.client import HTTPException

from shipcalc import __version__
from shipcalc.errors import NoAnswer, asked
from shipcalc.files import LARGEST_FILE_BYTES

TIMEOUT_SECONDS = 20.0


def fetched(address: str, *, timeout_s: float = TIMEOUT_SECONDS) -> bytes:
    """Return what stands at an address. Raises NoAnswer where it cannot be reached, or gives no file of a usual size."""
    question = urllib.request.Request(address, headers={"User-Agent": f"shipcalc/{__version__}"})  # noqa: S310 - https, of PUBLISHERS
    try:
        with urllib.request.urlopen(question, timeout=timeout_s) as answer:  # noqa: S310
            content: bytes = answer.read(LARGEST_FILE_BYTES + 1)
    except urllib.error.HTTPError as error:
        raise _unreached(address, f"it answers {error.code}") from None
    except TimeoutError:
        raise _unreached(address, "no answer in time") from None
    except (OSError, HTTPException):
        raise _unreached(address, "no connection") from None
    if len(content) > LARGEST_FILE_BYTES:
        raise _unreached(address, "it answers with far more than a file of figures")
    return content


def _unreached(address: str, why: str) -> NoAnswer:
    remedy = f"download it with your browser and name it with {asked('file')}"
    return NoAnswer(f"could not be fetched ({why}); nothing was written", where=address, remedy=remedy)
