"""What went wrong, as RFC 9457 has it: `application/problem+json` with the sentence that the terminal would say."""

import logging
from collections.abc import Mapping, Sequence
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from shipcalc.errors import FaultyWorkbook, NoAnswer, ShipcalcError

MEDIA_TYPE = "application/problem+json"
WRONG, NO = "urn:shipcalc:wrong-input", "urn:shipcalc:no-answer"
MISTAKE = "This is a mistake in shipcalc itself, and the answer was not made. Please report what was asked."
# No body and no address stands in the log: they hold buyers' names.
_log = logging.getLogger("shipcalc.desk")


def problem(
    status: int, title: str, detail: str, *, kind: str = "about:blank", more: Mapping[str, Any] | None = None
) -> JSONResponse:
    """Return a problem: `title` is the kind of it, `detail` this one in a sentence."""
    content = {"type": kind, "title": title, "status": status, "detail": detail, **(more or {})}
    return JSONResponse(content, status_code=status, media_type=MEDIA_TYPE)


def tell_problems(app: FastAPI) -> None:
    """Have an application answer with problems."""
    app.add_exception_handler(ShipcalcError, _own)
    app.add_exception_handler(RequestValidationError, _not_understood)
    app.add_exception_handler(HTTPException, _of_the_protocol)
    app.add_exception_handler(Exception, _mistake)


async def _own(_: Request, error: Exception) -> JSONResponse:
    """The answer is no: 409. What was sent cannot be used as it is: 422."""
    assert isinstance(error, ShipcalcError)
    more = {"where": error.where, "what": error.what, "remedy": error.remedy}
    if isinstance(error, FaultyWorkbook):
        more["cells"] = [str(one) for one in error.problems]  # type: ignore[assignment]
    if isinstance(error, NoAnswer):
        return problem(HTTPStatus.CONFLICT, "The answer is no", str(error), kind=NO, more=more)
    return problem(
        HTTPStatus.UNPROCESSABLE_ENTITY, "Something cannot be used as it is", str(error), kind=WRONG, more=more
    )


async def _not_understood(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, RequestValidationError)
    told = "; ".join(_field(one) for one in error.errors())
    return problem(HTTPStatus.UNPROCESSABLE_ENTITY, "Something cannot be used as it is", told, kind=WRONG)


def _field(one: Mapping[str, Any]) -> str:
    spot: Sequence[object] = one["loc"]
    name = ".".join(str(step) for step in spot[1:]) or "what was sent"
    return f"{name}: {str(one['msg']).lower()}"


async def _of_the_protocol(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, HTTPException)
    answer = problem(error.status_code, HTTPStatus(error.status_code).phrase, str(error.detail))
    answer.headers.update(error.headers or {})
    return answer


async def _mistake(request: Request, error: Exception) -> JSONResponse:
    _log.error("%s %s: %s", request.method, request.url.path, type(error).__name__)
    return problem(HTTPStatus.INTERNAL_SERVER_ERROR, "A mistake of the program", MISTAKE)
