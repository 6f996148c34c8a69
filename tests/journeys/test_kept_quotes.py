"""Kept quotes as a salesperson has them on the screen."""


def test_a_yes_of_a_day_to_come_is_not_kept(say) -> None:
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--save", "--as-of", "2026-12-01").status == 0
    told = say("quotes", "accept", "Q-2026-0001", "--on", "2026-12-05", "--as-of", "2026-12-02")
    assert (told.status, told.err) == (
        2,
        "shipcalc: --on: 2026-12-05 is still to come — give the day on which the buyer said yes\n",
    )
    assert say("quotes", "accept", "Q-2026-0001", "--on", "2026-12-02", "--as-of", "2026-12-02").status == 0


def test_one_is_counted_as_one(say) -> None:
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--save").status == 0
    assert say("register", "where").out.endswith(": 1 quote\n")
