"""The figures of the offer's second page: the lines of the recommended choice, and what customs may ask under each treatment."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from shipcalc.documents import wording
from shipcalc.documents.offer.alike import alike, told_together
from shipcalc.documents.offer.first_answer import DUTY_STAGE
from shipcalc.documents.offer.itemised import figures, groups, included_charges, label, local_charges, with_title
from shipcalc.documents.offer.landing import (
    CUSTOMS_CAUTION,
    altogether,
    criteria_told,
    has_more,
    landed_label,
    sum_told,
    treatment_name,
)
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Charge, Option, Quote


def lines(quote: Quote, option: Option, *, duty_stands: str = "below") -> Mapping[str, Any]:
    """Return `groups` of lines with their total, and `local`, what is paid to others, likewise; and the sums under them.

    `duty_stands` is where a reader finds duty and tax under each treatment.
    """
    return {
        "groups": _groups(quote, option, included_charges(option)),
        "total": {"label": "Total", "sum": sum_told(quote, option.total)},
        "local": _local(quote, option, duty_stands),
        "local_total": sum_told(quote, option.buyer_pays_locally),
        "sums": _sums(quote, option),
    }


def _sums(quote: Quote, option: Option) -> list[Mapping[str, str]]:
    """Return what the buyer pays in all, where anything comes beside the total."""
    if not has_more(option):
        return []
    found: list[Mapping[str, str]] = []
    if option.buyer_pays_locally:
        found.append({"label": "Altogether, an estimate", "sum": sum_told(quote, altogether(option))})
    if option.landed is not None:
        found.append({"label": f"Landed: {landed_label(quote, option)}", "sum": sum_told(quote, option.landed)})
    return found


def _groups(quote: Quote, option: Option, charges: Sequence[Charge]) -> list[Mapping[str, Any]]:
    """Return the lines stage by stage, or vehicle by vehicle; a group of one line has its title before it in the line.

    In a stage, lines that differ in their vehicle only are one.
    """
    parts = groups(option, charges, quote.vehicles) if charges else []
    staged = has_stages(option)
    found: list[Mapping[str, Any]] = []
    for title, own in parts:
        told = [_line(same, quote, staged=staged) for same in (alike(own) if staged else zip(own))]
        alone = staged and len(told) == 1
        if alone:
            told[0]["what"] = with_title(title, told[0]["what"])
        found.append({"title": "" if alone or len(parts) == 1 else title, "lines": told})
    return found


def _local(quote: Quote, option: Option, duty_stands: str) -> list[Mapping[str, Any]]:
    """Return what is paid to others; duty and tax in one line where each of them stands in the table of treatments."""
    charges = local_charges(option)
    duty = [one for one in charges if one.stage == DUTY_STAGE] if option.imports else []
    found = _groups(quote, option, [one for one in charges if one not in duty])
    if duty:
        amount = sum((one.amount for one in duty), Decimal(0))
        line = {"what": "Duty and tax (estimate)", "how": f"each {duty_stands}", "each": (), "amount": figures(amount)}
        found.append({"title": "", "lines": [line]})
    return found


def _line(same: tuple[Charge, ...], quote: Quote, *, staged: bool) -> dict[str, Any]:
    """Return one line, or several that are alike as one, which then names no vehicle."""
    what = label(same[0], quote, under_vehicle=not staged or len(same) > 1)
    return {"what": what, **told_together(same)}


def customs(quote: Quote, option: Option) -> Mapping[str, Any] | None:
    """Return duty and tax under every treatment side by side, of all vehicles together; None where nothing of them is known."""
    if not option.imports:
        return None
    return {
        "names": [f"{treatment_name(one)}{', counted' if one.counted else ''}" for one in option.imports],
        "rows": _customs_rows(option),
        "sums": [wording.money(one.amount, quote.currency) for one in option.imports],
        "told": [*(told for told in map(criteria_told, option.imports) if told), CUSTOMS_CAUTION],
    }


def _customs_rows(option: Option) -> list[Mapping[str, Any]]:
    """Return a row for every duty and tax, with each vehicle's part of what is counted."""
    under = [{same[0].code: same for same in alike(one.lines)} for one in option.imports]
    counted = next((at for at, one in enumerate(option.imports) if one.counted), 0)
    rows: list[Mapping[str, Any]] = []
    for code in dict.fromkeys(code for one in under for code in one):
        cells = [_NOTHING if code not in one else told_together(one[code]) for one in under]
        what = next(one[code][0].label for one in under if code in one)
        rows.append({"what": what, "each": cells[counted]["each"], "cells": cells})
    return rows


_NOTHING: Mapping[str, Any] = {"how": "", "each": (), "amount": "–"}
