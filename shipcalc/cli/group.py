"""Commands that have verbs of their own: `shipcalc rates check`, `shipcalc checklist read`."""

import typer
from typer.core import TyperGroup


class VerbGroup(TyperGroup):
    """A command with verbs: without one it tells what they are, and that is no mistake."""

    alone = "--help"  # what the command means by itself
    first_verb = ""  # the verb that may be left out

    def parse_args(self, ctx: typer.Context, args: list[str]) -> list[str]:  # type: ignore[override]
        """Put in the verb that may be left out, or the wish for help."""
        if not args:
            args = [self.alone]
        elif self.first_verb and args[0] not in self.commands and args[0] not in ctx.help_option_names:
            args = [self.first_verb, *args]
        return super().parse_args(ctx, args)


class ChecklistGroup(VerbGroup):
    """`checklist quote.json` makes the checklist: what is done first and most needs no verb."""

    first_verb = "make"


class ListGroup(VerbGroup):
    """`quotes` lists them, as `shipments` and `contacts` do: what is asked most needs no verb."""

    alone = first_verb = "list"
