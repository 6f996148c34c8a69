"""What is paid with where somebody lives (CLDR)."""

from datetime import date


def currency_of(country: str, *, on: date) -> str:
    """Return the code (ISO 4217) of a country's currency on a day, by its code (ISO 3166-1 alpha-2); "" where none is known."""
    from babel.numbers import get_territory_currencies

    found: list[str] = get_territory_currencies(country, start_date=on)
    return found[0] if found else ""
