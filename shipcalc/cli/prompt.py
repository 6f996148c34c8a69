"""Questions on a terminal: what is listed has numbers, and the number is an answer."""

import sys
from collections.abc import Sequence

from shipcalc.cli.look import bullets, look_of_stdout, show


def somebody_is_there() -> bool:
    """Return whether a question would be seen and could be answered: never in a pipe or a script."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def ask(question: str, *, may_be_empty: bool = False) -> str:
    """Return what was typed, without the blanks around it."""
    while True:
        typed = input(f"{question}: ").strip()
        if typed or may_be_empty:
            return typed


def ask_number(question: str, highest: int) -> int:
    """Return a number from 1 to `highest`; nothing typed is the first."""
    while True:
        typed = ask(f"{question} (Enter: 1)", may_be_empty=True) or "1"
        if number := number_in(typed, highest):
            return number
        tell(f"give a number from 1 to {highest}")


def number_in(typed: str, highest: int) -> int:
    """Return the number that was typed, or 0 where it is none of the listed ones: then it may be words."""
    plain = typed.removesuffix(".")
    return int(plain) if plain.isdecimal() and len(plain) < 4 and 1 <= int(plain) <= highest else 0


def offer(title: str, texts: Sequence[str]) -> None:
    """Show a list with a number before each entry."""
    look = look_of_stdout()
    lines = [title]
    for number, text in enumerate(texts, start=1):
        lines += bullets(look, [text], f"{number}.")
    show(lines)


def tell(what: str) -> None:
    """Show a sentence that needs a look."""
    show(bullets(look_of_stdout(), [what], "!"))


def say_again(what: str) -> None:
    """Show how an answer was understood."""
    show(bullets(look_of_stdout(), [what]))
