"""What could not be opened or saved, said in one message: the file, the place, what is wrong, what to do."""

from pathlib import Path


class CannotOpen(Exception):
    """A file that is no home, or is broken. `place` is a line or a record in words; empty for the whole file."""

    def __init__(self, file: Path, place: str, says: str, do: str) -> None:
        super().__init__(file, place, says, do)
        self.file, self.place, self.says, self.do = file, place, says, do

    def __str__(self) -> str:
        where = f"{self.file.name}, {self.place}" if self.place else self.file.name
        return f"{where}: {self.says}. {self.do}."


class CannotSave(Exception):
    """A home that could not be written. What stood in the file before still stands there."""

    def __init__(self, file: Path, says: str, do: str) -> None:
        super().__init__(file, says, do)
        self.file, self.says, self.do = file, says, do

    def __str__(self) -> str:
        return f"{self.file.name} was not saved: {self.says}. {self.do}."
