"""The parts of a table beside the file that it will be: written block by block, found again after a stop, removed at the end.

The folder's name holds the key of all inputs: parts of other vehicles, prices or days are never taken for these; each part says
in itself which block of which key it is, and one that is of another, or is not whole, is priced again. Parts are not compressed:
to read them back then takes no time.
"""

import shutil
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.bulk.plan import Block
from shipcalc.errors import WrongInput, asked, why
from shipcalc.records import dataclass
from shipcalc.sheets.saving import MOST_LETTERS, whole

if TYPE_CHECKING:
    import pyarrow as pa

ENDING = ".parts"
_SAYS = b"shipcalc"


@dataclass(frozen=True, slots=True)
class Parts:
    """The folder of the parts of one file with one key; `out` is the file."""

    folder: Path
    out: Path

    @classmethod
    def of(cls, out: Path, key: str) -> "Parts":
        """Return the parts of a file to be, beside it."""
        return cls(out.with_name(f".{out.name}.{key}{ENDING}"), out)

    def begin(self, out: Path) -> None:
        """Make the folder, and remove what other inputs have left of the same file. Raises WrongInput where it cannot be made."""
        for other in out.parent.glob(f".{out.name}.*{ENDING}"):
            if other != self.folder:
                shutil.rmtree(other, ignore_errors=True)
        for half in out.parent.glob(f".{out.name[:MOST_LETTERS]}.????????"):  # what a stop while writing has left
            half.unlink(missing_ok=True)
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise WrongInput(
                f"cannot be written ({why(error)})", where=str(out), remedy=f"name another with {asked('out')}"
            ) from None

    def path(self, block: Block) -> Path:
        """Return the file of a block."""
        return self.folder / f"{block.number:06d}.arrow"

    def write(self, block: Block, table: "pa.Table") -> None:
        """Write a block's rows in one move. Raises WrongInput where there is no room."""
        try:
            write_part(self.path(block), table.replace_schema_metadata({_SAYS: self._says(block, table)}))
        except WrongInput as wrong:
            raise WrongInput(wrong.what, where=str(self.out), remedy=wrong.remedy) from None

    def find(self, block: Block) -> "pa.Table | None":
        """Return the rows of a block, or None where there is no part that is this block's, and whole."""
        import pyarrow as pa

        try:
            with pa.memory_map(str(self.path(block))) as file:
                table = pa.ipc.open_file(file).read_all()
        except (OSError, pa.ArrowException):
            return None
        says = (table.schema.metadata or {}).get(_SAYS)
        return table.replace_schema_metadata(None) if says == self._says(block, table) else None

    def _says(self, block: Block, table: "pa.Table") -> bytes:
        return f"{self.folder.name} {block.number} {block.vehicles} {block.places} {len(table)}".encode()

    def remove(self) -> None:
        """Remove the folder: the file itself is written."""
        shutil.rmtree(self.folder, ignore_errors=True)


def write_part(path: Path, table: "pa.Table") -> None:
    """Write rows in one move. Raises WrongInput where there is no room."""
    import pyarrow as pa

    with (
        whole(path, remedy="make room on the disk") as beside,
        pa.OSFile(str(beside), "wb") as sink,
        pa.ipc.new_file(sink, table.schema) as writer,
    ):
        writer.write_table(table)
