"""Write advances.json and advances_fallback.json from the shipped typefaces: `python resources/make_advances.py`.

Needs fontTools, which the program itself never does. Run it again when a typeface package changes its letters.
"""

import json
from itertools import count, groupby
from pathlib import Path

import fontpkg_atkinson_hyperlegible
import fontpkg_noto_sans
from fontTools.ttLib import TTFont

HERE = Path(__file__).resolve().parent
REGULAR = "files/AtkinsonHyperlegible-Regular.ttf"
BOLD = "files/AtkinsonHyperlegible-Bold.ttf"
FALLBACK = "files/NotoSans[wdth,wght].ttf"  # variable: its table of advances is that of the default instance


def advances(font: TTFont) -> dict[int, int]:
    """Return the advance of every letter of a typeface, by code point, in its own units; control codes left out."""
    metrics = font["hmtx"].metrics
    return {code: metrics[glyph][0] for code, glyph in sorted(font.getBestCmap().items()) if code >= 0x20}


def stretches(table: dict[int, int]) -> list[list[object]]:
    """Return the table as [first code point, advances of it and its followers], which is short and easy to compare."""
    numbered = count()
    groups = (list(codes) for _, codes in groupby(table, key=lambda code: code - next(numbered)))
    return [[codes[0], [table[code] for code in codes]] for codes in groups]


def write(name: str, head: dict[str, object], faces: dict[str, dict[int, int]]) -> None:
    """Write one file of the resources, a stretch a line."""
    lines = [f' "{key}": {json.dumps(value)},' for key, value in head.items()]
    for face, table in faces.items():
        rows = ",\n".join(f"  {json.dumps(stretch)}" for stretch in stretches(table))
        lines.append(f' "{face}": [\n{rows}\n ],')
    (HERE / name).write_text("{\n" + "\n".join(lines).rstrip(",") + "\n}\n", encoding="utf-8")


def main() -> None:
    """Read the three typefaces and write both tables; the fallback only has what the first typeface lacks."""
    regular = TTFont(fontpkg_atkinson_hyperlegible.ROOT / REGULAR)
    bold = TTFont(fontpkg_atkinson_hyperlegible.ROOT / BOLD)
    fallback = TTFont(fontpkg_noto_sans.ROOT / FALLBACK)
    head: dict[str, object] = {
        "units": regular["head"].unitsPerEm,
        "ascent": regular["hhea"].ascent,
        "descent": -regular["hhea"].descent,
        "cap height": regular["OS/2"].sCapHeight,
    }
    faces = {"regular": advances(regular), "bold": advances(bold)}
    write("advances.json", head, faces)
    lacking = {code: wide for code, wide in advances(fallback).items() if code not in faces["regular"]}
    write("advances_fallback.json", {"units": fallback["head"].unitsPerEm}, {"fallback": lacking})


if __name__ == "__main__":
    main()
