"""A sheet as the bytes of files: one PDF, or an SVG a page."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.printing import CannotPrint

Written = Iterator[tuple[Path, bytes]]
PNG_IN_THE_WINDOW = "a PNG is saved from the window; here take .pdf or .svg"


def files_of(sheet: Sheet, output: Path, pictures: Mapping[str, bytes]) -> list[tuple[Path, bytes]]:
    """Return which files a sheet is written to and what is in them, by the ending of `output`.

    Raises `CannotPrint` for an ending of another kind.
    """
    ways: dict[str, Callable[[], Written]] = {
        ".pdf": lambda: _pdf(sheet, output, pictures),
        "": lambda: _pdf(sheet, output, pictures),
        ".svg": lambda: _svg(sheet, output, pictures),
    }
    way = ways.get(output.suffix.lower())
    if way is None:
        said = PNG_IN_THE_WINDOW if output.suffix.lower() == ".png" else "end it with .pdf or .svg"
        raise CannotPrint(f"{output}: {said}.")
    return list(way())


def _pdf(sheet: Sheet, output: Path, pictures: Mapping[str, bytes]) -> Written:
    from floorplan_circuits.surfaces.pdf import pdf_of  # late: a picture of the plan needs no PDF library

    if sheet.pages:
        yield output, pdf_of(sheet, pictures)


def _svg(sheet: Sheet, output: Path, pictures: Mapping[str, bytes]) -> Written:
    from floorplan_circuits.surfaces.svg import svg_of

    for path, page in zip(numbered(output, len(sheet.pages)), sheet.pages, strict=True):
        yield path, svg_of(page, f"{sheet.title}: {page.name}", pictures)


def numbered(output: Path, count: int) -> list[Path]:
    """Return the files of so many pages: the name as it is for one, numbered from 1 for more.

    Examples:
        >>> [path.name for path in numbered(Path("plan.svg"), 2)]
        ['plan-1.svg', 'plan-2.svg']
    """
    if count == 1:
        return [output]
    return [output.with_name(f"{output.stem}-{number}{output.suffix}") for number in range(1, count + 1)]
