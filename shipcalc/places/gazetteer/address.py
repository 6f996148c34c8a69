"""A street address, looked up with a geocoder of the Nominatim kind: only when the user asks for it, and only online.

Answers are kept in the user's cache folder, so that an address is asked for once. The public server of OpenStreetMap allows
one question a second and wants its data named: © OpenStreetMap contributors (operations.osmfoundation.org/policies/nominatim).
"""

import json
import warnings
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from shipcalc import __version__
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.gazetteer.finding import Finding
from shipcalc.places.gazetteer.regions import CANADIAN_PROVINCES, US_STATES, US_TERRITORIES
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.places.place import Place
from shipcalc.records import asdict
from shipcalc.sheets.keeping import find_kept_file, keep_file, kept_in

PUBLIC_ENDPOINT = "https://nominatim.openstreetmap.org"
USER_AGENT = f"shipcalc/{__version__}"
TIMEOUT_SECONDS = 5.0
LONGEST_TOLD = 200
# What geopy ends in over an answer that it did not expect.
_UNEXPECTED = (ValueError, TypeError, AttributeError, KeyError, RecursionError)
ATTRIBUTION = "© OpenStreetMap contributors"
_INSTEAD = "give the ZIP, or the city with its state or country"


def look_up_address(
    text: str,
    *,
    endpoint: str = PUBLIC_ENDPOINT,
    user_agent: str = USER_AGENT,
    timeout_s: float = TIMEOUT_SECONDS,
    cache_folder: Path | None = None,
) -> Finding:
    """Return the place of a street address, from the cache or else from the geocoder at `endpoint` (scheme://host[:port]).

    Raises WrongInput where the geocoder knows no such address, NoAnswer where it cannot be asked.
    """
    key = f"{endpoint.rstrip('/')} {spelling_key(text)}"
    cache = (cache_folder or kept_in("addresses")) / "addresses.json"
    kept = _read_cache(cache)
    place = _kept_place(kept.get(key))
    if place is None:
        place = _place(text, _ask(text, endpoint=endpoint, user_agent=user_agent, timeout_s=timeout_s))
        _write_cache(cache, {**kept, key: asdict(place)})
    return Finding(place, note=f"{text}: taken as {place.name} ({place.found_by}).")


def _ask(text: str, *, endpoint: str, user_agent: str, timeout_s: float) -> dict[str, Any]:
    """Return the geocoder's first answer as it came."""
    from geopy.adapters import URLLibAdapter
    from geopy.exc import GeocoderServiceError, GeopyError
    from geopy.geocoders import Nominatim

    server = urlsplit(endpoint)
    if server.scheme not in ("http", "https") or not server.netloc:
        raise WrongInput(f"“{endpoint}” is not an address of a geocoder", remedy=f"write it like {PUBLIC_ENDPOINT}")
    domain = server.netloc + server.path.rstrip("/")
    # Always the same adapter: where `requests` is installed, geopy would take that, which waits three times as long.
    geocoder = Nominatim(
        domain=domain,
        scheme=server.scheme,
        user_agent=user_agent,
        timeout=timeout_s,
        adapter_factory=URLLibAdapter,
    )
    ask: Callable[..., Any] = geocoder.geocode
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # geopy warns of points that are not on the earth, which are refused below
            answer = ask(text, exactly_one=True, addressdetails=True, language="en")
    except GeocoderServiceError as error:
        raise NoAnswer(f"the address could not be looked up ({_why(error)})", where=text, remedy=_INSTEAD) from None
    except (GeopyError, *_UNEXPECTED):
        raise NoAnswer("the geocoder's answer could not be read", where=text, remedy=_INSTEAD) from None
    if answer is None:
        raise WrongInput("no such address is known", where=text, remedy=_INSTEAD)
    raw: dict[str, Any] = answer.raw if isinstance(answer.raw, dict) else {}
    return raw


def _place(text: str, answer: dict[str, Any]) -> Place:
    """Return the answer as a place; state and territory by their two letters, as everywhere in the program."""
    told = answer.get("address")
    details: dict[str, Any] = told if isinstance(told, dict) else {}
    country = str(details.get("country_code", "")).upper()
    if not (len(country) == 2 and country.isascii() and country.isalpha()):
        raise NoAnswer("the geocoder does not say in which country it lies", where=text, remedy=_INSTEAD)
    state_code = str(details.get("ISO3166-2-lvl4", "")).rpartition("-")[2]
    if country == "US" and state_code in US_TERRITORIES:
        country, state_code = state_code, ""
    known = {"US": US_STATES, "CA": CANADIAN_PROVINCES}.get(country)
    try:
        latitude, longitude = float(answer["lat"]), float(answer["lon"])
        if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):  # also what is no number at all
            raise ValueError(answer)
    except (KeyError, ValueError, TypeError):
        raise NoAnswer("the geocoder's answer could not be read", where=text, remedy=_INSTEAD) from None
    return Place(
        name=_plain(answer.get("display_name") or text),
        kind="address",
        country=country,
        subdivision=state_code if known is None or state_code in known else "",
        postal_code=_plain(details.get("postcode", "")),
        latitude=latitude,
        longitude=longitude,
        found_by=f"address looked up, {ATTRIBUTION}",
    )


def _plain(told: object) -> str:
    """Return a text of the geocoder on one line, of a length that a paper has room for, without signs that steer a terminal."""
    text = "".join(sign if sign.isprintable() else " " for sign in str(told))
    return " ".join(text.split())[:LONGEST_TOLD]


def _why(error: Exception) -> str:
    """Return a service error in words."""
    from geopy import exc
    from geopy.adapters import AdapterHTTPError

    said: tuple[tuple[type[Exception], str], ...] = (
        (exc.GeocoderTimedOut, "the geocoder did not answer in time"),
        (exc.GeocoderRateLimited, "the geocoder wants a pause between questions"),
        (exc.GeocoderInsufficientPrivileges, "the geocoder refuses this program"),
        (exc.GeocoderParseError, "the geocoder's answer could not be read"),
    )
    answered = isinstance(error.__cause__, AdapterHTTPError)  # otherwise no answer came at all
    otherwise = "the geocoder reports an error" if answered else "no connection to the geocoder"
    return next((words for kind, words in said if isinstance(error, kind)), otherwise)


def _kept_place(entry: object) -> Place | None:
    """Return a place from the cache; an entry that somebody has spoiled is asked for again."""
    try:
        return Place(**entry) if isinstance(entry, dict) else None
    except TypeError:
        return None


def _read_cache(path: Path) -> dict[str, Any]:
    """Return what is kept; a cache that cannot be read is an empty one."""
    try:
        kept = json.loads(find_kept_file(path) or b"{}")
    except ValueError:
        return {}
    return kept if isinstance(kept, dict) else {}


def _write_cache(path: Path, kept: dict[str, Any]) -> None:
    """Keep the answers; a cache that cannot be written costs only the next look-up."""
    keep_file(path, json.dumps(kept, ensure_ascii=False, indent=1, sort_keys=True).encode(), most=1)
