"""The register as a whole: register where, backup, restore, upgrade."""

from pathlib import Path
from typing import Annotated

from shipcalc.cli.at_register import desk_of, tell
from shipcalc.cli.options import AsJson, argument, flag
from shipcalc.errors import how_many

File = Annotated[Path, argument("FILE", "The backup, a .zip.")]


def where(as_json: AsJson = False) -> None:
    """Say where quotes and shipments are kept, and how many there are."""
    from shipcalc.actions.kept_register import where as look

    found = look(desk_of(""))
    told = {"register": found.name, "version": found.version, "quotes": found.quotes}
    tell(told, f"{found.name}: {how_many(found.quotes, 'quote')}", as_json=as_json)


def backup(file: File, as_json: AsJson = False) -> None:
    """Write all that is kept into one file, for your own eyes: it holds buyers' names."""
    from shipcalc.actions.kept_register import back_up

    done = back_up(file, desk_of(""))
    told = {"file": str(file), "version": done.version, "rows": done.rows}
    tell(
        told,
        f"{file}: {how_many(done.rows.get('quotes', 0), 'quote')}, {sum(done.rows.values())} rows in all",
        as_json=as_json,
    )


def restore(
    file: File,
    over: Annotated[bool, flag("--over", "Write over what the register holds: it is lost.")] = False,
    as_json: AsJson = False,
) -> None:
    """Fill an empty register from a backup, of this program or an older one, from either kind of database."""
    from shipcalc.actions.kept_register import restore as fill

    done = fill(file, desk_of(""), over=over)
    told = {"file": str(file), "version": done.version, "rows": done.rows}
    tell(told, f"restored from {file}: {how_many(done.rows.get('quotes', 0), 'quote')}", as_json=as_json)


def upgrade(
    beside: Annotated[Path, argument("FOLDER", "Where its backup is put first.")],
    as_json: AsJson = False,
) -> None:
    """Bring a register of an older version up to date, after backing it up."""
    from shipcalc.actions.kept_register import upgrade as bring_up

    before, after = bring_up(desk_of(""), beside)
    sentence = f"it is at {after} already" if before == after else f"brought from {before} to {after}"
    tell({"before": before, "after": after}, sentence, as_json=as_json)


COMMANDS = (
    ("where", where, "Where it is, and what it holds.", "shipcalc register where"),
    ("backup", backup, "All of it in one file.", "shipcalc register backup register.zip"),
    ("restore", restore, "From such a file.", "shipcalc register restore register.zip --over"),
    ("upgrade", upgrade, "Bring an older one up to date.", "shipcalc register upgrade ."),
)
