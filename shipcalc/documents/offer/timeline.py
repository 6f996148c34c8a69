"""When it happens, step by step: the steps of one choice or of several side by side, and what is noted of them."""

from collections.abc import Callable, Sequence

from shipcalc.documents import wording
from shipcalc.pictures.scene import Scene, in_ink
from shipcalc.quote.model import Milestone, Option, Quote, Window
from shipcalc.records import dataclass

Say = Callable[[str], str]

# What a step of a stage is called where the choices go by different ports.
_ANYWHERE = {
    "port": "In the terminal of the port",
    "cut-off": "Last day for the vehicle and its papers",
    "sailing": "",
    "arrival": "Arrives",
    "release": "Cleared by customs",
    "delivery": "Delivered, or ready to be collected",
}


@dataclass(frozen=True, slots=True)
class Step:
    """A step in the order they come: what it is called, its windows in each choice, and for one choice what is noted of it."""

    what: str
    windows: tuple[tuple[Window, ...], ...]
    note: str = ""


def steps(options: Sequence[Option], *, for_office: bool = False) -> list[Step]:
    """Return all steps once; those of one stage that differ only by port are one. The office is told how days are reckoned."""
    alike: dict[str, list[Milestone]] = {}
    for option in options:
        for step in option.dates.timeline:
            alike.setdefault(step.stage if step.stage in _ANYWHERE else step.what, []).append(step)
    keys = alike if len(options) == 1 else sorted(alike, key=lambda key: min(map(_window, alike[key])))
    return [_side_by_side(key, alike[key], options, for_office=for_office) for key in keys]


def _side_by_side(key: str, alike: Sequence[Milestone], options: Sequence[Option], *, for_office: bool) -> Step:
    names = {step.what for step in alike}
    windows = (tuple(_window(step) for step in option.dates.timeline if step.what in names) for option in options)
    noted = (alike[0].note, alike[0].office_note if for_office else "") if len(options) == 1 else ()
    what = alike[0].what if len(names) == 1 else _ANYWHERE[key] or _leaves(alike)
    return Step(what, tuple(windows), " ".join(filter(None, noted)))


def _leaves(alike: Sequence[Milestone]) -> str:
    """Return how what leaves from several places is called: `Sails`, and `Sails or leaves` where not all are ships."""
    told = dict.fromkeys(step.what.partition(" from ")[0] for step in alike)
    return " or ".join(told).capitalize()


def _window(step: Milestone) -> Window:
    return step.earliest, step.latest


def step_notes(options: Sequence[Option]) -> list[str]:
    """Return the notes of the steps, each once, and before it the choices it belongs to where it is not for all."""
    told: dict[str, list[int]] = {}
    for index, option in enumerate(options):
        for step in option.dates.timeline:
            note = (
                f"{step.what}: {wording.lower_first(step.note)}" if step.stage in _ANYWHERE and step.note else step.note
            )
            if note and index not in told.setdefault(note, []):
                told[note].append(index)
    return [
        note if len(where) == len(options) else f"{wording.choices_named(where)}: {note}"
        for note, where in told.items()
    ]


def time_scene(quote: Quote, option: Option, *, width: float, say: Say = str) -> Scene | None:
    """Return the steps of a choice drawn against days, `width` points wide; None where there are none.

    `say` says every text again in the reader's language.
    """
    from shipcalc.pictures.time_line import ACCENT, Row, time_line

    steps_of = option.dates.timeline
    rows = [
        Row(say(step.what), say(wording.window(_window(step))), *_window(step), limit=step.stage == "cut-off")
        for step in steps_of
    ]
    if not rows:
        return None
    told = "; ".join(f"{step.what}: {wording.window(_window(step))}" for step in steps_of)
    described = say(f"A line of time. {told}.")
    drawn = time_line(rows, width=width, title=say("When it happens"), description=described, say=say)
    return in_ink(drawn, ACCENT, quote.dealer.accent.removeprefix("#"))
