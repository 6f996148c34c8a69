"""The condition columns of every decision table read one by one, as their headers and notes say: slowly, in plain Python.

Nothing here knows how conditions are declared or answered; `told` has a value for every fact, None where nobody knows it.
"""

from datetime import timedelta

MEASURES = (
    ("length_over_mm", "length_up_to_mm", "length_mm"),
    ("width_over_mm", "width_up_to_mm", "width_mm"),
    ("height_over_mm", "height_up_to_mm", "height_mm"),
    ("clearance_over_mm", "clearance_up_to_mm", "clearance_mm"),
    ("mass_over_grams", "mass_up_to_grams", "mass_grams"),
    ("value_over_minor", "value_up_to_minor", "value_minor"),
)


def in_days(row, told):
    return not (row.valid_from and told["day"] < row.valid_from) and not (row.valid_to and told["day"] > row.valid_to)


def yes_or_no(row, told, *names):
    return all(getattr(row, name) is None or getattr(row, name) is told[name] for name in names)


def named(cell, told):
    return not cell or (told is not None and told.lower() in [name.lower() for name in cell])


def in_yearly(window, first, last):
    """Walk through the days of a window; of a season's first and last day only day and month count."""
    day = window[0]
    while day <= window[1]:
        here, begins, ends = (day.month, day.day), (first.month, first.day), (last.month, last.day)
        if begins <= here <= ends or (begins > ends and (here >= begins or here <= ends)):
            return True
        day += timedelta(1)
    return False


def in_season(row, told):
    """Return whether a known window touches the row's season; what is not known is asked by the sheets themselves."""
    asks = row.season_from and row.season_to and told["leaves"]
    return in_yearly(told["leaves"], row.season_from, row.season_to) if asks else True


def carrier(row, told):
    return in_days(row, told)


def extra_charge(row, told):
    """An unknown measure meets no bound; a blank trailer is any trailer, and what is driven has none."""
    if row.carrier and row.carrier.lower() != told["carrier"].lower():
        return False
    if row.trailer != told["trailer"] and (row.trailer or told["trailer"] == "driven"):
        return False
    for over, up_to, measure in MEASURES:
        lower, upper, size = getattr(row, over), getattr(row, up_to), told[measure]
        if size is None and (lower is not None or upper is not None):
            return False
        if (lower is not None and size <= lower) or (upper is not None and size > upper):
            return False
    if row.vehicles_over is not None and told["vehicle_count"] <= row.vehicles_over:
        return False
    if row.miles_over is not None and told["miles"] <= row.miles_over:
        return False
    states = yes_or_no(row, told, "runs", "rolls", "steers", "brakes", "modified")
    return states and yes_or_no(row, told, "lift_gate", "limited_access", "express") and in_days(row, told)


def season(row, told):
    if row.from_area and not told["pickup_area"](row.from_area):
        return False
    if row.to_area and not told["delivery_area"](row.to_area):
        return False
    day = told["day"]
    return (
        in_yearly((day, day), row.first_day, row.last_day) if row.every_year else row.first_day <= day <= row.last_day
    )


def storage(row, told):
    return in_days(row, told) and (not row.yard or (told["yard"] or "").lower() == row.yard.lower())


def terminal(row, told):
    return named(row.carriers, told["carrier"]) and not (row.valid_to and told["day"] > row.valid_to)


def marine_cover(row, told):
    return row.conditions == told["cover"] and row.mode in (None, told["mode"])


def loading_way(row, told):
    works = yes_or_no(row, told, "runs", "rolls", "steers", "brakes")
    return works and row.mode == told["mode"] and named(row.lines, told["carrier"])


def stage_charge(row, told):
    """A vehicle of unknown year meets no bound; a ship of unknown day leaves in no season."""
    if row.mode not in (None, told["mode"]) or not named(row.to_country, told["to_country"]):
        return False
    if row.not_to_country and named(row.not_to_country, told["to_country"]):
        return False
    if row.year_up_to is not None and (told["year"] is None or told["year"] > row.year_up_to):
        return False
    if row.season_from and row.season_to and told["leaves"] is None:
        return False
    return in_season(row, told) and named(row.title, told["title"]) and yes_or_no(row, told, "runs")


def import_charge(row, told):
    """What is not known meets nothing, except what a row asks not to be."""
    age, size, body = told["age_years"], told["engine_cc"], (told["body"] or "").lower()
    if (row.age_from is not None or row.age_under is not None) and age is None:
        return False
    if (row.age_from is not None and age < row.age_from) or (row.age_under is not None and age >= row.age_under):
        return False
    if (row.engine_over_cc is not None or row.engine_up_to_cc is not None) and size is None:
        return False
    if row.engine_over_cc is not None and size <= row.engine_over_cc:
        return False
    if row.engine_up_to_cc is not None and size > row.engine_up_to_cc:
        return False
    if row.body and not [word for word in row.body if word.lower() in body]:
        return False
    if [word for word in row.not_body if word.lower() in body]:
        return False
    if row.not_built_in and named(row.not_built_in, told["built_in"]):
        return False
    if row.treatment and not asked_treatment(row, told):
        return False
    country = row.country.lower() == told["to_country"].lower() and named(row.built_in, told["built_in"])
    return country and yes_or_no(row, told, "motorcycle") and in_days(row, told)


def asked_treatment(row, told):
    return row.treatment in (told["treatment"] if isinstance(told["treatment"], frozenset) else (told["treatment"],))


def entry_rule(row, told):
    """An unknown age is old enough for a rule, and young enough for one: rather one word too many."""
    age = told["age_years"]
    if row.age_from is not None and age is not None and age < row.age_from:
        return False
    if row.age_under is not None and age is not None and age >= row.age_under:
        return False
    country = row.country.lower() == told["to_country"].lower() and named(row.built_in, told["built_in"])
    return country and yes_or_no(row, told, "motorcycle") and in_days(row, told)


def hold(row, told):
    if row.subdivision and row.subdivision.lower() not in [name.lower() for name in told["to_part"]]:
        return False
    return row.country.lower() == told["to_country"].lower() and in_days(row, told)


def paper(row, told):
    """Rather one paper too many: an unknown value is over every sum, an unknown age within every bound, any day in season."""
    age, value = told["age_years"], told["value_minor"]
    if row.age_from is not None and age is not None and age < row.age_from:
        return False
    if row.age_under is not None and age is not None and age >= row.age_under:
        return False
    if row.value_over_minor is not None and value is not None and value <= row.value_over_minor:
        return False
    if row.treatment and not asked_treatment(row, told):
        return False
    if row.trailer and row.trailer != told["trailer"]:
        return False
    lists = ("to_country", "mode", "loaded", "term", "balance_due", "title")
    if not all(named(getattr(row, name), told[name]) for name in lists):
        return False
    yes = yes_or_no(row, told, "overseas", "export_filing", "runs", "lift_gate", "battery")
    return yes and in_season(row, told) and paid(row, told) and in_days(row, told)


def paid(row, told):
    sellers = [stage in told["seller_pays"] for stage in row.seller_pays]
    buyers = [stage not in told["seller_pays"] for stage in row.buyer_pays]
    return all(sellers) and all(buyers)


READINGS = {
    "Carriers": carrier,
    "Lanes": in_days,
    "Countries": in_days,
    "Vehicles loaded": in_days,
    "When it happens": in_days,
    "Service classes": in_days,
    "Extra charges": extra_charge,
    "Seasons": season,
    "Storage": storage,
    "Terminals": terminal,
    "Ocean": in_days,
    "Ocean quotations": in_days,
    "Port charges": in_days,
    "Ways of loading": loading_way,
    "Stage charges": stage_charge,
    "Marine cover": marine_cover,
    "Documents": paper,
    "Tasks": paper,
    "From the buyer": paper,
    "Import charges": import_charge,
    "Entry rules": entry_rule,
    "Holds": hold,
}
