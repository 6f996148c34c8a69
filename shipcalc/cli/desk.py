"""The local page and interface: desk."""

import socket
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import note
from shipcalc.cli.options import RatesFolder, StockFile, flag, now, option, this_day
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from fastapi import FastAPI

LOOPBACK = "127.0.0.1"
FIRST_PORT, TRIED = 8720, 20


def desk(
    port: Annotated[
        int | None, option("--port", "N", f"The port it answers at. Default: {FIRST_PORT}, or the next free one.")
    ] = None,
    no_browser: Annotated[bool, flag("--no-browser", "Do not open the page in the browser.")] = False,
    stock: StockFile = None,
    rates: RatesFolder = None,
) -> None:
    """Open the desk: a page in the browser, and an interface for other programs, on this machine alone. Ctrl-C ends it."""
    from shipcalc.actions.sources import find_sources
    from shipcalc.desk.app import make_desk

    folder = Path.cwd()
    app = make_desk(
        lambda day: find_sources(folder=folder, stock=stock, rates=rates, as_of=day), today=this_day, now=now
    )
    with _bound(port) as at:
        url = f"http://{LOOPBACK}:{at.getsockname()[1]}/"
        note(f"the desk is open at {url} (Ctrl-C ends it)")
        _serve(app, at, "" if no_browser else url)


def _bound(port: int | None) -> socket.socket:
    """Return a socket that listens: at the port that was named, else at the first free one. Raises WrongInput for none."""
    if port is not None and not 0 <= port <= 65_535:
        raise WrongInput(f"{port} is not a port", where="--port", remedy=f"write a number such as {FIRST_PORT}")
    wanted = range(FIRST_PORT, FIRST_PORT + TRIED) if port is None else (port,)
    for one in wanted:
        found = _bound_at(one)
        if found is not None:
            return found
    told = f"port {port} is" if port is not None else f"ports {FIRST_PORT} to {FIRST_PORT + TRIED - 1} are"
    raise WrongInput(
        f"{told} taken, perhaps by a desk that is open already", where="--port", remedy="name another port"
    )


def _bound_at(port: int) -> socket.socket | None:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)  # or it must wait a minute after it was ended
    try:
        listening.bind((LOOPBACK, port))
        listening.listen(128)
    except OSError:
        listening.close()
        return None
    return listening


def _serve(app: "FastAPI", at: socket.socket, url: str) -> None:
    """Answer until it is ended; the page is opened once there is somebody to answer."""
    import webbrowser

    import uvicorn

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            if url:
                webbrowser.open(url)

    # What is asked holds buyers' names: it stands in no log.
    Server(uvicorn.Config(app, log_level="warning", access_log=False)).run(sockets=[at])


COMMANDS = (("desk", desk, "The page in the browser.", "shipcalc desk"),)
