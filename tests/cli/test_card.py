"""The answer in one breath: few lines at every width, whatever there is to say, and in the order in which buyers ask."""

import re
from decimal import Decimal

import pytest

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.cli.answer import sections
from shipcalc.cli.card import MOST_CARD_LINES, card_lines
from shipcalc.cli.look import Look
from shipcalc.documents.offer.differences import differences, span
from shipcalc.documents.offer.first_answer import answers, rounded, warning_gist
from shipcalc.documents.offer.landing import altogether
from shipcalc.documents.wording import place
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from tests.quote.conftest import DAY

WIDTHS = (80, 91, 100)
LONG = (
    "A warning that changes the decision, of which already what it is about takes more than a single line: "
    + "it may be refused at the border, and then it comes back at your cost. " * 4
)
ORDERS = {
    "home": {"vehicles": ("HV-1042",), "to": "59715"},
    "home, five, by a day": {
        "vehicles": ("HV-1042", "HV-1003", "HV-1187", "HV-1153", "HV-1129"), "to": "79843", "currency": "EUR", "by": DAY.replace(year=2027),
    },
    "Bremen": {"vehicles": ("HV-1027",), "to": "Bremen, Germany", "currency": "EUR"},
    "Milan, built in the United States": {"vehicles": ("HV-1015",), "to": "Milan, Italy", "currency": "EUR"},
    "Toronto": {"vehicles": ("HV-1027",), "to": "Toronto, ON"},
    "Sydney": {"vehicles": ("HV-1042",), "to": "Sydney, Australia", "currency": "JPY"},
    "Apia": {"vehicles": ("HV-1027",), "to": "Apia, Samoa"},
    "Yokohama, two": {"vehicles": ("HV-1042", "HV-1003"), "to": "Yokohama, Japan"},
}  # fmt: skip
# Every kind of way, term and country: told at each width, and read aloud.
MORE_ORDERS = {
    "Key West": {"vehicles": ("HV-1187",), "to": "Key West, FL"},
    "three to Beverly Hills": {"vehicles": ("HV-1042", "HV-1003", "HV-1187"), "to": "90210"},
    "Nantucket, a ferry": {"vehicles": ("HV-1042",), "to": "Nantucket, MA"},
    "Honolulu": {"vehicles": ("HV-1042",), "to": "Honolulu, HI"},
    "Kahului": {"vehicles": ("HV-1027",), "to": "Kahului, HI"},
    "Anchorage": {"vehicles": ("HV-1153",), "to": "Anchorage, AK"},
    "Juneau": {"vehicles": ("HV-1042",), "to": "Juneau, AK"},
    "San Juan": {"vehicles": ("HV-1027",), "to": "San Juan, PR"},
    "Vancouver": {"vehicles": ("HV-1042",), "to": "Vancouver, BC", "currency": "CAD"},
    "Montréal": {"vehicles": ("HV-1153",), "to": "Montréal, QC"},
    "Monterrey": {"vehicles": ("HV-1042",), "to": "Monterrey, Mexico"},
    "Munich, in a container": {"vehicles": ("HV-1042",), "to": "Munich, Germany", "currency": "EUR", "ocean": "container"},
    "London, RoRo": {"vehicles": ("HV-1042",), "to": "London, UK", "currency": "GBP", "ocean": "roro"},
    "Auckland": {"vehicles": ("HV-1027",), "to": "Auckland, New Zealand", "currency": "NZD"},
    "Dubai": {"vehicles": ("HV-1153",), "to": "Dubai"},
    "Zürich": {"vehicles": ("HV-1027",), "to": "Zürich", "currency": "CHF"},
    "Oslo": {"vehicles": ("HV-1027",), "to": "Oslo, Norway", "currency": "NOK"},
    "Lagos": {"vehicles": ("HV-1042",), "to": "Lagos, Nigeria"},
    "Reykjavík": {"vehicles": ("HV-1027",), "to": "Reykjavík, Iceland", "currency": "EUR"},
    **{
        f"Bremen, {term}": {"vehicles": ("HV-1027",), "to": "Bremen, Germany", "currency": "EUR", "term": term}
        for term in ("EXW", "FCA", "FAS", "FOB", "CFR", "CIF", "CPT", "CIP", "DPU", "DDP")
    },
}  # fmt: skip


@pytest.fixture(scope="module")
def quotes() -> dict[str, Quote]:
    sources = invented_sources()
    books = open_books(sources)
    return {
        name: quote(Order(**order), sources, as_of=DAY, books=books)
        for name, order in {**ORDERS, **MORE_ORDERS}.items()
    }


def worse(made: Quote) -> Quote:
    """The same with long names, warnings and sentences, as real life has them."""
    vehicle = replace(made.vehicles[0], model="Super Grand Routier Extraordinaire Longchassis Special Equipment")
    options = tuple(
        replace(option, before_price=(LONG, LONG, "Short."), not_included=(*option.not_included, LONG, LONG))
        for option in made.options
    )
    return replace(made, vehicles=(vehicle, *made.vehicles[1:]), options=options, reason=LONG)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", ORDERS)
@pytest.mark.parametrize("for_office", [False, True])
@pytest.mark.parametrize("made_worse", [False, True])
def test_card_and_choices_come_to_few_lines(
    quotes, name: str, width: int, *, for_office: bool, made_worse: bool
) -> None:
    made = worse(quotes[name]) if made_worse else quotes[name]
    told = made if for_office else for_buyer(made)
    for chosen, option in enumerate(made.options):
        lines = card_lines(told, Look(width=width), chosen=chosen, for_office=for_office)
        assert len(lines) <= (32 if has_stages(option) else 26)
        assert max(map(len, lines)) <= width
        card = lines[: lines.index("")] if made_worse else lines[: lines.index("", 2)]
        assert len(card) <= MOST_CARD_LINES
        assert place(made.to) in lines[0]
        labels = ("Price", "There by", "Also to pay", "Not included", "To book")
        starts = [next(n for n, line in enumerate(lines) if line.startswith(label)) for label in labels]
        assert starts == sorted(starts)
        assert len(
            [line for line in lines if line[:3].strip() in "123456" and line[2:3].isdigit() and not line[3:4].isdigit()]
        ) == len(made.options)


@pytest.mark.parametrize("name", ORDERS)
def test_what_changes_the_decision_stands_above_the_price(quotes, name: str) -> None:
    lines = card_lines(worse(quotes[name]), Look(width=80), chosen=0, for_office=False)
    price = next(n for n, line in enumerate(lines) if line.startswith("Price"))
    warned = [n for n, line in enumerate(lines) if line.startswith("! ")]
    assert warned
    assert max(warned) < price
    assert any(line.startswith("! and ") and line.endswith("more: --full") for line in lines)


@pytest.mark.parametrize("width", [None, 40, 60, 79])
def test_a_pipe_and_a_narrow_screen_are_told_everything_uncut(quotes, width: int | None) -> None:
    made = worse(quotes["Bremen"])
    lines = card_lines(made, Look(width=width), chosen=0, for_office=False)
    told = " ".join(" ".join(lines).split())
    assert told.count(f"! {LONG.strip()}") == 2
    assert "storage, waiting" in told
    assert not any("…" in line for line in lines)


def test_a_way_that_ends_before_the_buyers_place_says_where(quotes) -> None:
    made = quotes["Apia"]
    option = replace(made.options[0], arrives=False)
    told = {
        one.what: one.text
        for one in answers(replace(made, options=(option,)), 0, lambda value, code: f"{value:,} {code}")
    }
    assert f" in {place(option.legs[-1].to)}, where the way ends" in told["when"]


def test_both_treatments_by_the_customs_stand_side_by_side(quotes) -> None:
    made = quotes["Bremen"]
    option = made.options[made.recommended]
    ordinary, collector = (f"{rounded(one.amount):,}" for one in option.imports)
    told = {
        answer.what: answer.text for answer in answers(made, made.recommended, lambda value, code: f"{value:,} {code}")
    }
    assert f"{ordinary} of it duty and tax" in told["else"]
    assert f"{collector} of it duty and tax" in told["else"]
    assert "as a collector's piece" in told["altogether"]


def test_three_treatments_by_the_customs_stand_side_by_side(quotes) -> None:
    made = quotes["Milan, built in the United States"]
    option = made.options[made.recommended]
    told = {
        answer.what: answer.text for answer in answers(made, made.recommended, lambda value, code: f"{value:,} {code}")
    }
    assert [one.treatment for one in option.imports] == ["ordinary", "collector", "preference"]
    without = altogether(option) - option.imports[0].amount
    for one, named in zip(option.imports[1:], ("as a collector's piece", "with proof of origin"), strict=True):
        assert re.search(rf"{named} about [\d,]+, {rounded(one.amount):,} of it duty and tax", told["else"])
        assert f"or {rounded(without + one.amount):,} {named}" in told["altogether"]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("home", "no duty and no import tax"),
        ("Apia", "are not known to us"),
        ("Toronto", "Goods and services tax (GST), federal"),
        ("Milan, built in the United States", "To be taken as a collector's piece, customs ask for: "),
    ],
)
def test_asked_for_duty_there_is_always_an_answer(quotes, name: str, said: str) -> None:
    made = quotes[name]
    asked = sections(made, Look(width=None), ("duty",), chosen=made.recommended, for_office=False)
    assert said in "\n".join(asked)


def test_a_part_that_has_nothing_to_say_says_so(quotes) -> None:
    made = quotes["home"]
    option = replace(made.options[0], warnings=())
    told = sections(replace(made, options=(option,)), Look(width=None), ("warnings",), chosen=0, for_office=False)
    assert told == ["", "There is nothing to say under warnings."]


@pytest.mark.parametrize("name", ORDERS)
def test_what_is_ours_is_exact_and_what_others_ask_is_about(quotes, name: str) -> None:
    made = quotes[name]
    for index, option in enumerate(made.options):
        told = {answer.what: answer.text for answer in answers(made, index, lambda value, code: f"{value:,} {code}")}
        assert told["price"].startswith(f"{option.total:,} {made.currency}")
        assert told["book"].startswith(f"{option.deposit:,} {made.currency}")
        if option.buyer_pays_locally:
            assert told["else"].startswith(f"about {rounded(option.buyer_pays_locally):,}")
            assert told["altogether"].startswith(f"about {rounded(altogether(option)):,}")


@pytest.mark.parametrize("name", ORDERS)
def test_each_choice_says_what_more_it_costs_and_how_much_sooner_it_is(quotes, name: str) -> None:
    made = quotes[name]
    best = made.options[made.recommended]
    for option, one in zip(made.options, differences(made), strict=True):
        if option is best:
            assert one.more is None
            continue
        assert one.more is not None
        assert abs(one.more - (altogether(option) - altogether(best))) <= (50 if has_stages(option) else 0)
        days = (best.dates.delivery[1] - option.dates.delivery[1]).days
        assert (f"{span(abs(days))} {'sooner' if days > 0 else 'later'}" in one.words) is (days != 0)


@pytest.mark.parametrize(
    ("amount", "told"),
    [("23416.20", "23400"), ("5321.09", "5320"), ("463", "460"), ("42.70", "43"), ("999.60", "1000"), ("0.40", "0"), ("1234567", "1230000")],
)  # fmt: skip
def test_an_estimate_is_rounded_to_what_it_is_worth(amount: str, told: str) -> None:
    assert rounded(Decimal(amount)) == Decimal(told)


@pytest.mark.parametrize(
    ("days", "told"), [(1, "1 day"), (13, "13 days"), (14, "2 weeks"), (22, "3 weeks"), (25, "4 weeks")]
)
def test_long_spans_are_told_in_weeks(days: int, told: str) -> None:
    assert span(days) == told


# How fast somebody speaks on the telephone, words a second (our assumption; common practice, no source).
WORDS_A_SECOND = 3
SPOKEN_SECONDS = 15


def words_of_number(number: int) -> int:
    """Count the words of a whole number as it is spoken in full: 4,440 is four, thousand, four, hundred, forty."""
    count = 0 if number else 1
    for size in (10**6, 10**3, 1):
        if part := number // size % 1_000:
            tens = part % 100
            count += 2 * (part >= 100) + (tens > 0) + (tens > 20 and tens % 10 > 0) + (size > 1)
    return count


def spoken(text: str) -> int:
    """Count the words of a text as it is read aloud; what stands in brackets is for the eye."""
    count = 0
    for word in re.sub(r"\([^)]*\)", "", text).split():
        figures = word.strip(",.;′").replace(",", "")
        whole, _, cents = figures.partition(".")
        if not whole.isdecimal():
            count += any(letter.isalpha() for letter in word)
            continue
        count += words_of_number(int(whole)) + (1 + words_of_number(int(cents)) if cents.strip("0") else 0)
    return count


def test_words_are_counted_as_they_are_spoken() -> None:
    assert [words_of_number(number) for number in (0, 7, 20, 21, 100, 215, 4_440, 28_200, 1_000_000)] == [
        1,
        1,
        1,
        2,
        2,
        3,
        5,
        5,
        2,
    ]
    assert spoken("4,440.00 dollars to your door (DAP), RoRo") == 10
    assert spoken("1 × 20′ container, 3.50 dollars") == 1 + 1 + 1 + 3 + 1


def headline(made: Quote) -> str:
    """Return what is read before the buyer asks further: where, how much, by when, what it all comes to, and what is not in it.

    Of the price it is read how far it reaches and not what carries it, of the days the last without its year, of the place no ZIP.
    The table of choices, the deposit and what stands above the price are not in it.
    """
    told = {
        one.what: one.brief or one.text
        for one in answers(replace(made, exchange=None), made.recommended, lambda value, _: f"{value:,} dollars")
    }
    when = (told.get("when") or told["fetch"]).split(",")[0]
    parts = (
        f"To {place(made.to).removesuffix(f' {made.to.postal_code}')}",
        re.match(r".*?(?: (?:to|from) [^,]*|, [^,]*)(?=,|$)", told["price"])[0],
        f"there by {re.sub(r' 20[0-9][0-9]', '', when)}",
        f"altogether {told['altogether']}" if "altogether" in told else f"also to pay {told['else']}",
        f"not included {told['missing']}",
    )
    return ". ".join(parts)


@pytest.mark.parametrize("name", [*ORDERS, *MORE_ORDERS])
def test_the_answer_is_read_aloud_in_fifteen_seconds(quotes, name: str) -> None:
    said = headline(quotes[name])
    assert spoken(said) / WORDS_A_SECOND <= SPOKEN_SECONDS, said


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", [*ORDERS, *MORE_ORDERS])
def test_nothing_is_cut_on_any_real_card(quotes, name: str, width: int) -> None:
    told = for_buyer(quotes[name])
    lines = card_lines(told, Look(width=width), chosen=told.recommended, for_office=False)
    assert not [line for line in lines if "…" in line]


@pytest.mark.parametrize(
    ("warning", "gist"),
    [
        ("It cannot leave before 13 Dec 2026: about 10 days after you accept to get a lien released.", "It cannot leave before 13 Dec 2026."),
        ("HV-1129: the title is not at hand; ask what the state accepts.", "HV-1129: the title is not at hand; ask what the state accepts."),
        ("The approval must be in hand (Act of 2018, in full since 2021-07-01).", "The approval must be in hand."),
        ("Cars of this age are refused. Have the buyer ask customs there.", "Cars of this age are refused."),
    ],
)  # fmt: skip
def test_the_gist_of_a_warning_is_a_whole_sentence(warning: str, gist: str) -> None:
    assert warning_gist(warning) == gist
