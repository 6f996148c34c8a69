"""The same rates give the same rows wherever their table stands and however its headers and figures are written."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from .reading import understood, workbook

FROM = st.sampled_from(
    ["From", "Origin", "Pickup", "Pick-up location", "Ship from", "Origin City, ST", "Van", "Départ", "ORIGIN"]
)
TO = st.sampled_from(["To", "Destination", "Dest.", "Deliver to", "Drop", "Delivery", "Nach", "Destnation"])
OPEN = st.sampled_from(["Open", "Open rate", "Open carrier (USD)", "Open trailer", "Flat, open", "Price – open"])
ENCLOSED = st.sampled_from(["Enclosed", "Encl.", "Enclosed rate", "Covered", "Closed trailer", "Rate enclosed USD"])
PLACES = ("Bellingham, WA", "Savannah, GA", "Boise, ID", "Reno, NV", "Dallas, TX", "WA", "980-984", "59715")
STYLES = (
    lambda cents: float(Decimal(cents).scaleb(-2)),
    lambda cents: f"${Decimal(cents).scaleb(-2):,.2f}",
    lambda cents: f"USD {Decimal(cents).scaleb(-2):,.2f}",
    lambda cents: f"{Decimal(cents).scaleb(-2):.2f} USD",
    lambda cents: f"$ {Decimal(cents).scaleb(-2):.2f} per vehicle",
)
LANE = st.tuples(
    st.sampled_from(PLACES), st.sampled_from(PLACES), st.integers(5_000, 900_000), st.integers(5_000, 900_000)
)


@given(
    lanes=st.lists(LANE, min_size=1, max_size=6, unique_by=lambda lane: lane[:2]),
    headers=st.tuples(FROM, TO, OPEN, ENCLOSED),
    order=st.permutations(range(4)),
    down=st.integers(0, 7),
    across=st.integers(0, 5),
    style=st.sampled_from(STYLES),
    extra=st.booleans(),
    note=st.booleans(),
)
def test_the_same_rates_give_the_same_rows(tmp_path_factory, lanes, headers, order, down, across, style, extra, note):
    table = [headers, *((one, other, style(cheap), style(dear)) for one, other, cheap, dear in lanes)]
    rows = [[row[place] for place in order] for row in table]
    if extra:
        rows = [[*row, "Transit" if number == 0 else "3-5 days"] for number, row in enumerate(rows)]
    head = [["Coastal Wren Carriers LLC"], ["Fuel included, USD, valid 2026-12-01 to 2026-12-31"], *([[]] * down)]
    below = [[], ["Thank you for your business"]] if note else []
    path = workbook(
        tmp_path_factory.mktemp("mail") / "mail.xlsx", [*head, *([None] * across + row for row in rows), *below]
    )
    found = understood(path)

    read = {(rate.start.text, rate.end.text, rate.trailer): rate.flat for rate in found.rates}
    expected = {}
    for one, other, cheap, dear in lanes:
        expected[one, other, "open"] = Decimal(cheap).scaleb(-2)
        expected[one, other, "enclosed"] = Decimal(dear).scaleb(-2)
    assert not found.questions
    assert read == expected
    assert {(rate.currency, rate.fuel_included) for rate in found.rates} == {("USD", True)}


@given(
    prices=st.lists(st.lists(st.integers(50, 9_000), min_size=3, max_size=3), min_size=1, max_size=4),
    down=st.integers(0, 5),
    across=st.integers(0, 4),
    corner=st.sampled_from(["From / To", "From \\ To", "Origin ↓ Destination →", "from/to"]),
)
def test_a_table_of_places_gives_a_row_for_each_price(tmp_path_factory, prices, down, across, corner):
    across_places, down_places = ("Boise, ID", "Reno, NV", "TX"), ("WA", "Savannah, GA", "Portland, OR", "980-984")
    rows = [[corner, *across_places], *([place, *row] for place, row in zip(down_places, prices, strict=False))]
    head = [["Coastal Wren Carriers LLC"], ["Open, USD, fuel included"], *([[]] * down)]
    path = workbook(tmp_path_factory.mktemp("mail") / "mail.xlsx", [*head, *([None] * across + row for row in rows)])

    read = {(rate.start.text, rate.end.text): rate.flat for rate in understood(path).rates}
    assert read == {
        (one, other): price
        for one, row in zip(down_places, prices, strict=False)
        for other, price in zip(across_places, row, strict=True)
    }
