"""Ways that end where the buyer is, around countries that are held; what is said where the price ends before."""

from datetime import date

import pytest

from shipcalc.actions.quoting import open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.road.borders import countries_on_the_way
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.embargoed import embargoed_countries, shipped_holds
from shipcalc.ratebook.rows.imports import Hold
from shipcalc.records import replace

DAY = date(2026, 12, 1)
HELD = frozenset(embargoed_countries()) | {hold.country for hold in shipped_holds()}


def place(text: str):
    found = find_place(text).place
    assert found is not None, text
    return found


@pytest.fixture(scope="module")
def books():
    return open_books(invented_sources())


@pytest.fixture(scope="module")
def ask(books):
    def quote_for(to: str, *, start: str = "98225", changes: dict | None = None, **wishes: str):
        vehicle = next(v for v in books.stock.vehicles if v.stock_number == "HV-1042")
        request = Request(vehicles=(vehicle,), starts=(place(start),), to=place(to), ready=DAY, wishes=Wishes(**wishes))
        book = replace(books.rates, **changes) if changes else books.rates
        return make_quote(request, book, as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))

    return quote_for


@pytest.mark.parametrize(
    ("to", "port"), [("Lagos, Nigeria", "Lagos"), ("Apia, Samoa", "Apia"), ("Gibraltar, GI", "Algeciras")]
)
def test_a_way_arrives_where_the_buyer_is(ask, to: str, port: str) -> None:
    for option in ask(to).options:
        assert option.arrives
        assert option.term == "DAP"
        assert any(leg.to.name == port for leg in option.legs)
        assert not any("The price ends" in said for said in option.before_price)


# The customary ports of landlocked countries: those of Africa after supplychainafrika.com (read at second hand), the others from
# memory.
LANDLOCKED = {
    "Bamako, Mali": {"Dakar", "Abidjan"},
    "Ouagadougou, Burkina Faso": {"Abidjan", "Tema", "Lomé"},
    "Niamey, Niger": {"Lomé", "Tema", "Abidjan"},
    "N'Djamena, Chad": {"Douala"},
    "Kampala, Uganda": {"Mombasa", "Dar es Salaam"},
    "Bujumbura, Burundi": {"Mombasa", "Dar es Salaam"},
    "Addis Ababa, Ethiopia": {"Djibouti"},
    "Lusaka, Zambia": {"Dar es Salaam", "Durban", "Walvis Bay"},
    "Blantyre, Malawi": {"Beira", "Dar es Salaam", "Durban"},
    "La Paz, Bolivia": {"Arica", "Iquique"},
    "Asunción, Paraguay": {"Montevideo", "Buenos Aires"},
    "Kathmandu, Nepal": {"Kolkata"},
    "Thimphu, Bhutan": {"Kolkata"},
    "Vientiane, Laos": {"Laem Chabang"},
    "Ulaanbaatar, Mongolia": {"Tianjin Xingang"},
    "Skopje, North Macedonia": {"Thessaloniki", "Durrës"},
    "Pristina, Kosovo": {"Thessaloniki", "Durrës"},
}


@pytest.mark.parametrize(("to", "ports"), LANDLOCKED.items())
def test_a_landlocked_country_is_reached_by_its_gateways_and_from_there_to_the_door(ask, to, ports) -> None:
    for option in ask(to).options:
        ship, truck = option.legs[-2:]
        assert ship.to.name in ports
        assert truck.mode == "truck"
        assert option.arrives


@pytest.mark.parametrize("to", ["Bamako, Mali", "Ulaanbaatar, Mongolia"])
def test_without_rates_for_its_roads_the_price_ends_at_the_gateway_and_says_so_above(ask, books, to: str) -> None:
    country = place(to).country
    rates = tuple(row for row in books.rates.on_carriage if row.country != country)
    for option in ask(to, changes={"on_carriage": rates}).options:
        assert option.legs[-1].to.name in LANDLOCKED[to]
        assert not option.arrives
        assert any(
            said.startswith(f"The price ends at the port of {option.legs[-1].to.name},") for said in option.before_price
        )


@pytest.mark.parametrize("to", ["Baku, Azerbaijan", "Tashkent, Uzbekistan", "Dushanbe, Tajikistan"])
def test_no_way_on_crosses_a_held_country_unless_somebody_released_it(ask, to: str) -> None:
    with pytest.raises(NoAnswer, match="leads through Georgia"):
        ask(to)
    assert ask(to, released_by="Imogen Vale").options


def test_ways_by_road_keep_out_of_held_countries() -> None:
    assert countries_on_the_way("OM", "UZ", without=HELD) == ()
    assert countries_on_the_way("US", "CR", without=HELD) == ()
    # Durban – Lusaka: around Zimbabwe, as the corridor by Botswana or Mozambique goes (from memory).
    assert "ZW" not in countries_on_the_way("ZA", "ZM", without=HELD)
    assert countries_on_the_way("DE", "EE", without=HELD) == ("DE", "PL", "LT", "LV", "EE")


def test_no_leg_of_any_way_to_any_country_touches_a_held_one(ask) -> None:
    for to in ("Amman, Jordan", "Kuwait City", "Lusaka, Zambia", "San Jose, Costa Rica", "Chisinau, Moldova"):
        for option in ask(to).options:
            assert not {leg.to.country for leg in option.legs} & HELD


def test_no_ship_doubles_back_to_where_a_truck_goes(ask) -> None:
    """Calgary is some 700 miles from the yard by road; by California and Vancouver it would be 2,000 and a ship."""
    assert all(len(option.legs) == 1 for option in ask("Calgary, AB").options)


@pytest.mark.parametrize(
    "to", ["Tehran, Iran", "Moscow, Russia", "Havana, Cuba", "Pyongyang, North Korea", "Minsk, Belarus"]
)
def test_what_is_embargoed_is_refused_whatever_the_workbook_says(ask, to: str) -> None:
    code = place(to).country
    written = Hold(country=code, hold="released", reason="Typed by a hurried manager.", source="none")
    for holds in ((), (written,), (replace(written, hold="to be released"),)):
        with pytest.raises(NoAnswer, match="is not quoted"):
            ask(to, changes={"holds": holds}, released_by="Imogen Vale")


@pytest.mark.parametrize(
    "at",
    [
        "44.95, 34.10",
        "44.62, 33.53",
        "45.36, 36.47",
        "46.10, 33.69",
        "48.00, 37.80",
        "47.10, 37.55",
        "48.57, 39.31",
        "49.41, 38.16",
    ],
)
def test_occupied_regions_are_refused_by_position(ask, at: str) -> None:
    """Simferopol, Sevastopol, Kerch, Armiansk; Donetsk, Mariupol, Luhansk, Svatove (positions from GeoNames, rounded)."""
    with pytest.raises(NoAnswer, match="under embargo"):
        ask(at, changes={"holds": ()}, released_by="Imogen Vale")


@pytest.mark.parametrize(
    "to", ["Kyiv, Ukraine", "Odesa, Ukraine", "Kharkiv, Ukraine", "Dnipro, Ukraine", "46.17, 34.80", "46.64, 32.62"]
)
def test_the_rest_of_the_country_waits_for_release(ask, to: str) -> None:
    """The last two are Henichesk and Kherson, beside Crimea."""
    with pytest.raises(NoAnswer, match="waits for release"):
        ask(to)


def test_removing_a_row_does_not_release_what_is_shipped_as_held(ask) -> None:
    with pytest.raises(NoAnswer, match="Almaty waits for release"):
        ask("Almaty, Kazakhstan", changes={"holds": ()})
    row = Hold(country="KZ", hold="released", reason="Own use was shown", source="our counsel, invented")
    quote = ask("Almaty, Kazakhstan", changes={"holds": (row, replace(row, country="GE"))})
    assert all("Released in the rate book: Own use was shown" in option.warnings[0] for option in quote.options)


def test_no_way_leads_to_a_port_of_an_embargoed_country(ask, books) -> None:
    model = next(row for row in books.rates.ports if row.port == "OMSOH")
    abbas = replace(model, port="IRBND", name="Bandar Abbas", country="IR", latitude=27.14, longitude=56.20)
    for to in ("Muscat, Oman", "Dubai, UAE"):
        options = ask(to, changes={"ports": (*books.rates.ports, abbas)}).options
        assert not any(leg.to.country == "IR" for option in options for leg in option.legs)


def test_a_passage_of_the_day_is_said_above_the_price_and_a_way_around_is_offered(ask) -> None:
    """Sohar lies outside the Strait of Hormuz, and lines of the book go there by the Cape of Good Hope."""
    options = ask("Dubai, UAE", start="31401").options
    around = [o for o in options if not any("excludes war" in said for said in o.before_price)]
    assert around
    assert any("lowest price around dangerous waters" in option.good_for for option in around)
    (said,) = (said for said in options[0].before_price if "Red Sea" in said)
    assert said.startswith("The ship passes the Suez Canal and Bab-el-Mandeb. ")
    assert all(leg.to.name == "Sohar" for option in around for leg in option.legs if leg.unit == "nmi")


def test_a_closed_passage_is_avoided(ask, books) -> None:
    """Hamad lies behind the Strait of Hormuz; with the strait closed no ship of the book gets there."""
    hormuz = next(row for row in books.rates.passages if row.passage == "hormuz")
    closed = tuple(replace(row, state="closed") if row is hormuz else row for row in books.rates.passages)
    with pytest.raises(NoAnswer, match="no way by sea without"):
        ask("Doha, Qatar", start="31401", changes={"passages": closed})
    around = ask("Dubai, UAE", start="31401", changes={"passages": closed}).options
    assert {leg.to.name for option in around for leg in option.legs if leg.unit == "nmi"} == {"Sohar"}


@pytest.mark.parametrize("to", ["Jeddah", "Mumbai", "Dubai", "Kuwait City", "Riyadh"])
def test_a_caution_tells_which_choice_goes_around_or_that_none_does(ask, to: str) -> None:
    options = ask(to, start="31401").options
    clear = [number for number, o in enumerate(options, 1) if not any("The ship passes" in s for s in o.before_price)]
    told = f"Choice {clear[0]} goes around these waters." if clear else "None of the choices goes around these waters."
    for option in options:
        war = [said for said in option.before_price if "excludes war" in said]
        passes = any("The ship passes" in said for said in option.before_price)
        assert len(war) == passes
        assert not war or war[0].endswith(told)


def test_the_agents_charge_for_handing_over_is_priced_or_said_to_be_missing(ask, books) -> None:
    """Agents ask for a delivery order and the release at arrival (common practice, no source)."""
    kept = tuple(row for row in books.rates.stage_charges if not row.code.startswith("hand-over"))
    for to in ("Bremen", "Auckland, New Zealand", "Lagos, Nigeria"):
        for option in ask(to, start="31401").options:
            (charge,) = (charge for charge in option.charges if charge.code.startswith("stage.hand-over"))
            assert charge.stage == "destination terminal"
            assert charge.estimate
            assert not any("handing it over" in said for said in option.before_price)
        for option in ask(to, start="31401", changes={"stage_charges": kept}).options:
            port = option.legs[1].to.name
            said = f"What the agent in {port} charges for releasing and handing it over is not in the price."
            assert said in option.before_price
