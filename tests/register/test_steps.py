"""A register of an earlier step is brought up to date with all that it holds."""

from datetime import date

import pytest
from sqlalchemy import inspect, text

from shipcalc.actions.quoting import Made
from shipcalc.quote.as_data import quote_to_json
from shipcalc.register import schema
from shipcalc.register.opening import open_register
from shipcalc.register.quotes import find_kept, keep_quote
from shipcalc.register.shipments import find_shipment
from shipcalc.register.tables import metadata

AT = "2026-12-01T16:20:05Z"


def test_the_first_step_with_data_is_brought_up(
    url: str, made: dict[str, Made], monkeypatch: pytest.MonkeyPatch
) -> None:
    real = schema.upgrade
    with monkeypatch.context() as then:
        then.setattr(schema, "NEWEST", "0001")
        then.setattr(schema, "upgrade", lambda connection: real(connection, "0001"))
        old = open_register(url)
        kept = [keep_quote(old, made[kind].quote, made[kind].request, made[kind].rates, at=AT) for kind in made]
        with old.writing() as connection:
            connection.execute(
                text("update quotes set state = 'accepted', choice = 0, decided_on = :day where number = :number"),
                {"number": kept[0].number, "day": date(2026, 12, 2).isoformat()}
                if "sqlite" in url
                else {"number": kept[0].number, "day": date(2026, 12, 2)},
            )
        old.close()
    register = open_register(url, any_version=True)
    with register.writing() as connection:
        schema.upgrade(connection)
    with register.reading() as connection:
        assert schema.version_of(connection) == schema.NEWEST
        assert set(metadata.tables) <= set(inspect(connection).get_table_names())
        assert [quote_to_json(find_kept(connection, one.number or "").quote) for one in kept] == [
            quote_to_json(one) for one in kept
        ]
    register.close()


def test_lines_that_were_kept_before_name_no_paper_and_have_no_columns_of_their_own(
    url: str, made: dict[str, Made], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A line laid into the tables of the third step reads as before after the fourth."""
    real = schema.upgrade
    with monkeypatch.context() as then:
        then.setattr(schema, "NEWEST", "0003")
        then.setattr(schema, "upgrade", lambda connection: real(connection, "0003"))
        old = open_register(url)
        kept = keep_quote(old, made["home"].quote, made["home"].request, made["home"].rates, at=AT)
        with old.writing() as connection:
            connection.execute(
                text(
                    "insert into shipments (number, revision, choice, accepted_on, moments, free_days, version) "
                    "values (:number, 1, 0, '2026-12-01', '{}', '{}', 1)"
                ),
                {"number": kept.number},
            )
            connection.execute(
                text(
                    "insert into tasks (number, id, place, title, owner, due, stage, after, critical, wanted, note, source, "
                    "state, version) values (:number, 'wash', 1, 'Wash it', 'yard', '2026-12-02', 'pickup', '[]', 0, '', '', "
                    "'', 'open', 1)"
                ),
                {"number": kept.number},
            )
            connection.execute(text("update quotes set state = 'accepted', choice = 0"))
        old.close()
    register = open_register(url, any_version=True)
    with register.writing() as connection:
        schema.upgrade(connection)
    with register.reading() as connection:
        (line,) = find_shipment(connection, kept.number or "").lines
    assert (line.item.title, line.paper, line.added) == ("Wash it", "", ())
    register.close()
