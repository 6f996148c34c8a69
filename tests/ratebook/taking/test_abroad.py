"""Roads from a port abroad go into On-carriage, an agent's tariff into Port charges. Mails made up here."""

import pytest

from shipcalc.ratebook.taking.abroad import beginnings_between

from .reading import understood, workbook


def onward(found):
    return [
        (
            rate.where.removeprefix("Rates!"),
            rate.trailer,
            rate.start and rate.start.text,
            rate.end.country,
            rate.end.text,
        )
        for rate in found.rates
        if rate.target == "On-carriage"
    ]


def charges(found):
    return [
        (rate.label, rate.basis, str(rate.flat.normalize()), rate.from_day)
        for rate in found.rates
        if rate.target == "Port charges"
    ]


def named(found, *, taken=False):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out if item.is_taken == taken}


@pytest.mark.parametrize(
    ("low", "high"), [("1000", "3999"), ("6500", "9999"), ("20", "22"), ("00", "99"), ("0127", "0131"), ("7", "9")]
)
def test_beginnings_are_of_all_codes_of_a_span_and_of_no_other(low, high):
    # The slow reading: each code of as many figures is tried.
    begun = tuple(beginnings_between(low, high))
    codes = [f"{number:0{len(low)}}" for number in range(10 ** len(low))]

    assert [code for code in codes if code.startswith(begun)] == [code for code in codes if low <= code <= high]


def test_postal_codes_beside_their_country_are_beginnings_from_the_port_of_the_letter(tmp_path):
    rows = [
        ("Bergkvist Spedition AB",),
        ("On-carriage ex Bremerhaven, EUR, incl. fuel",),
        ("Land", "PLZ", "open", "enclosed"),
        ("DE", "80-81", 480, 790),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert onward(found) == [("C4", "open", "DEBRV", "DE", "80; 81"), ("D4", "enclosed", "DEBRV", "DE", "80; 81")]
    assert not found.questions


def test_postal_codes_without_a_country_are_one_question(tmp_path):
    rows = [
        ("Bergkvist Spedition AB",),
        ("On-carriage ex Bremerhaven, EUR, incl. fuel",),
        ("PLZ", "open"),
        ("80-81", 480),
        ("10-14", 410),
    ]
    path = workbook(tmp_path / "a.xlsx", rows)
    assert [question.key for question in understood(path).questions] == ["country"]

    found = understood(path, answers={"country": "Germany"})
    assert [one[4] for one in onward(found)] == ["80; 81", "10; 11; 12; 13; 14"]


def test_a_column_of_ports_and_one_of_towns_beyond_are_a_road_and_no_freight(tmp_path):
    rows = [
        ("Kaskel Haulage Ltd",),
        ("Delivery rates in GBP, open transporter",),
        ("Port of discharge", "Delivery to", "Rate"),
        ("Southampton", "Leeds, UK", 240),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert onward(found) == [("C4", "open", "GBSOU", "GB", "Leeds")]


def test_roads_by_the_kilometre_to_countries_are_asked_for_their_port_when_none_is_said(tmp_path):
    rows = [
        ("Kaskel Haulage SARL",),
        ("EUR / km, carburant inclus, open trailer",),
        ("Pays", "Prix/km", "Minimum"),
        ("France", "1,60", 250),
        ("Switzerland", "2,10", 400),
    ]
    path = workbook(tmp_path / "a.xlsx", rows)
    assert [question.key for question in understood(path).questions] == ["from"]

    found = understood(path, answers={"from": "Le Havre"})
    assert [one[2:] for one in onward(found)] == [("FRLEH", "FR", ""), ("FRLEH", "CH", "")]
    assert [str(rate.per_mile) for rate in found.rates] == ["2.57495040", "3.37962240"]  # 1.60 and 2.10 × 1.609344
    assert [rate.minimum for rate in found.rates] == [250, 400]


def test_a_terminals_tariff_is_charges_of_its_port(tmp_path):
    head = [("Blue Gannet Port Agency, Southampton",), ("Charges at destination, valid from 1 January 2027",), ()]
    rows = [
        ("Charge", "Basis", "Amount", "Currency", "Free days"),
        ("Terminal handling", "per vehicle", 95, "GBP", None),
    ]
    rows += [("Storage", "per vehicle per day", 12, "GBP", 5), ("Unstuffing 40'HC", "per container", 450, "GBP", None)]
    rows += [("Customs entry", "per entry", 75, "GBP", None), ("Survey", "per hour", 60, "GBP", None)]
    found = understood(workbook(tmp_path / "a.xlsx", [*head, *rows]))

    assert charges(found) == [
        ("Terminal handling", "vehicle", "95", None),
        ("Storage", "vehicle a day", "12", None),
        ("Unstuffing 40'HC", "container", "4.5E+2", None),
        ("Customs entry", "shipment", "75", None),
    ]
    assert {rate.start.text for rate in found.rates} == {"GBSOU"}
    assert {rate.currency for rate in found.rates} == {"GBP"}
    assert named(found).keys() == {"C9"}
    assert "free days" in named(found, taken=True)["C6"]
    assert not found.questions


def test_steps_of_storage_are_counted_after_the_free_days(tmp_path):
    rows = [
        ("Blue Gannet Port Agency, Southampton",),
        (),
        ("Charge", "Per", "GBP"),
        ("First 7 days", "vehicle per day", "free"),
    ]
    rows += [
        ("Quay rent day 8-14", "vehicle per day", 9),
        ("Quay rent day 15 onwards", "vehicle per day", 18),
        ("Wharfage", "revenue ton", 2.15),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert charges(found) == [
        ("Quay rent", "vehicle a day", "9", None),
        ("Quay rent", "vehicle a day", "18", 8),
        ("Wharfage", "revenue ton", "2.15", None),
    ]


def test_a_tariff_that_names_no_port_is_one_question(tmp_path):
    rows = [
        ("Blue Gannet Agents",),
        (),
        ("Charge", "Basis", "USD"),
        ("Wharfage", "per vehicle", 20),
        ("Terminal gate fee", "per vehicle", 15),
    ]
    path = workbook(tmp_path / "a.xlsx", rows)
    assert [question.key for question in understood(path).questions] == ["port"]

    found = understood(path, answers={"port": "USSAV"})
    assert {rate.start.text for rate in found.rates} == {"USSAV"}


def test_what_a_carrier_asks_beside_its_lanes_is_no_port_charge(tmp_path):
    rows = [
        ("Blue Gannet Transport LLC, Seattle",),
        (),
        ("Charge", "Amount"),
        ("Inoperable vehicle", "$150"),
        ("Dry run", "$200"),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert not found.rates
    assert named(found).keys() >= {"A4", "A5"}
