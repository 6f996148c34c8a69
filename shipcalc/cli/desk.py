"""The local page and interface: desk."""

import re
import socket
import time
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import note
from shipcalc.cli.options import RatesFolder, StockFile, flag, now, option, this_day
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from fastapi import FastAPI

    from shipcalc.desk.safety import Door

LOOPBACK = "127.0.0.1"
LOOPBACK_NAMES = ("127.0.0.1", "localhost", "::1")
FIRST_PORT, TRIED = 8720, 20


def desk(
    port: Annotated[
        int | None, option("--port", "N", f"The port it answers at. Default: {FIRST_PORT}, or the next free one.")
    ] = None,
    no_browser: Annotated[bool, flag("--no-browser", "Do not open the page in the browser.")] = False,
    host: Annotated[
        str, option("--host", "ADDRESS", "Let others reach it at this address of the machine; they sign in, over TLS.")
    ] = "",
    name: Annotated[str, option("--name", "NAME", "What others call it: desk.dealer.example.")] = "",
    certificate: Annotated[Path | None, option("--certificate", "FILE", "Its certificate (PEM), for TLS.")] = None,
    private_key: Annotated[Path | None, option("--private-key", "FILE", "The certificate's key (PEM).")] = None,
    behind_proxy: Annotated[
        bool, flag("--behind-proxy", "A server in front of it, on this machine, does TLS under --name.")
    ] = False,
    public: Annotated[
        bool, flag("--public", "Answer nothing but what delivery costs, to sites with a key (people site).")
    ] = False,
    stock: StockFile = None,
    rates: RatesFolder = None,
) -> None:
    """Open the desk: a page in the browser, and an interface for other programs, on this machine alone. Ctrl-C ends it.

    Others reach it with --host and --name, and sign in: shipcalc people add says who may.
    """
    from shipcalc.actions.sources import find_sources
    from shipcalc.desk.app import make_desk
    from shipcalc.desk.public import make_public

    folder = Path.cwd()
    door = _door(folder, host=host, name=name, certificate=certificate, private_key=private_key, proxy=behind_proxy)
    make = make_public if public else make_desk
    app = make(
        lambda day: find_sources(folder=folder, stock=stock, rates=rates, as_of=day),
        today=this_day,
        now=now,
        door=door,
        clock=time.monotonic,
    )
    with _bound(port, host or LOOPBACK) as at:
        at_port = at.getsockname()[1]
        url = (
            f"https://{name}:{at_port}/"
            if certificate
            else f"https://{name}/"
            if behind_proxy
            else f"http://{LOOPBACK}:{at_port}/"
        )
        note(f"the desk is open at {url} (Ctrl-C ends it)")
        _serve(
            app, at, "" if no_browser or public or door.sign_in else url, certificate, private_key, proxy=behind_proxy
        )


def _door(
    folder: Path, *, host: str, name: str, certificate: Path | None, private_key: Path | None, proxy: bool
) -> "Door":
    """Return how the desk is reached. Raises WrongInput where others would reach it without sign-in and TLS."""
    from shipcalc.desk.people import people_file, read_people
    from shipcalc.desk.safety import Door
    from shipcalc.settings import find_settings

    if not (host or name or certificate or private_key or proxy):
        return Door()
    if not re.fullmatch(r"[\w.-]+", name):
        remedy = "say what others type to reach the desk: --name desk.dealer.example"
        what = f'"{name}" is no name of a server' if name else "it is missing"
        raise WrongInput(what, where="--name", remedy=remedy)
    if (certificate is None) != (private_key is None) or (certificate is None) != proxy:
        remedy = "give --certificate and --private-key, or --behind-proxy where a server in front of it does TLS"
        raise WrongInput("what others send to the desk must be encrypted (TLS)", remedy=remedy)
    if proxy and host not in ("", LOOPBACK, "localhost", "::1"):
        remedy = "leave --host out: the server in front of it is on this machine"
        raise WrongInput("without TLS it answers on this machine alone", where="--host", remedy=remedy)
    for file in (certificate, private_key):
        if file is not None and not file.is_file():
            raise WrongInput("there is no such file", where=str(file), remedy="name the file in PEM form")
    people = read_people(people_file(find_settings(folder)))
    if not people.persons and not people.sites:
        remedy = "shipcalc people add NAME --role manager lets the first one in"
        raise WrongInput("nobody may sign in yet", remedy=remedy)
    return Door(names=(name.lower(), *LOOPBACK_NAMES), sign_in=True)


def _bound(port: int | None, host: str) -> socket.socket:
    """Return a socket that listens: at the port that was named, else at the first free one. Raises WrongInput for none."""
    if port is not None and not 0 <= port <= 65_535:
        raise WrongInput(f"{port} is not a port", where="--port", remedy=f"write a number such as {FIRST_PORT}")
    wanted = range(FIRST_PORT, FIRST_PORT + TRIED) if port is None else (port,)
    for one in wanted:
        found = _bound_at(one, host)
        if found is not None:
            return found
    told = f"port {port} is" if port is not None else f"ports {FIRST_PORT} to {FIRST_PORT + TRIED - 1} are"
    raise WrongInput(
        f"{told} taken, perhaps by a desk that is open already", where="--port", remedy="name another port"
    )


def _bound_at(port: int, host: str) -> socket.socket | None:
    listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)  # or it must wait a minute after it was ended
    try:
        listening.bind((host, port))
        listening.listen(128)
    except OSError:
        listening.close()
        return None
    return listening


def _serve(
    app: "FastAPI",
    at: socket.socket,
    url: str,
    certificate: Path | None = None,
    private_key: Path | None = None,
    *,
    proxy: bool,
) -> None:
    """Answer until it is ended; the page is opened once there is somebody to answer."""
    import webbrowser

    import uvicorn

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            if url:
                webbrowser.open(url)

        async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
            await app.state.live.close()
            await super().shutdown(sockets)

    # What is asked holds buyers' names: it stands in no log.
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=proxy,
        timeout_graceful_shutdown=2,
        ssl_certfile=certificate,
        ssl_keyfile=private_key,
    )
    Server(config).run(sockets=[at])


COMMANDS = (("desk", desk, "The page in the browser.", "shipcalc desk"),)
