"""A text that somebody typed, as one line: where lines mean something, what a person is called must not begin one."""


def one_line(text: str) -> str:
    """Return a text without line breaks and other control characters, which could begin a header or a line of their own.

    Left out are all signs that are not printable (Unicode's categories Other and Separator but the blank): also those that turn
    the direction of writing.
    """
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())
