"""What of the choices comes to paper: over the sea the recommended one in full, the others by their stages."""

from shipcalc.documents import wording
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Quote


def prints_recommended_alone(quote: Quote) -> bool:
    """Return whether pages that take the choices one by one print the recommended one only; the file holds them all.

    So where every choice's stages stand side by side on a sheet of their own. Six ways over the sea, line by line, are ten
    pages that differ in a few lines.
    """
    return len(quote.options) > 1 and any(has_stages(option) for option in quote.options)


def choices_in_order(quote: Quote) -> list[int]:
    """Return the choices as such a page has them: in their order, or first the recommended one where it alone is printed."""
    first = quote.recommended if prints_recommended_alone(quote) else 0
    return sorted(range(len(quote.options)), key=lambda index: index != first)


def printed_told(quote: Quote) -> str:
    """Return the sentence that says what is printed and where the rest stands, or nothing where all of it is printed."""
    if not prints_recommended_alone(quote):
        return ""
    name = wording.lower_first(wording.choice_name(quote.recommended))
    return (
        f"On paper this is {name}, which we recommend; the other choices stand beneath it in the file, and what each comes to "
        "stage by stage on the page Who pays what."
    )
