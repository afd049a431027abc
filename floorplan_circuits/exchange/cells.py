"""Cells of a CSV that a spreadsheet opens: none is run as a formula, and each comes back as it went."""

RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""What a spreadsheet may take for the beginning of a formula, the wide letters of East Asian keyboards too."""
MARK = "'"


def guarded(words: str) -> str:
    """Return a text with a mark before it where a spreadsheet might run it.

    Examples:
        >>> guarded("=1+1"), guarded("Kitchen"), guarded("'quoted")
        ("'=1+1", 'Kitchen', "''quoted")
    """
    return f"{MARK}{words}" if words.lstrip(" ").startswith((*RISKY, MARK)) else words


def bare(cell: str) -> str:
    """Return a text as it was before `guarded`.

    Examples:
        >>> bare("'=1+1"), bare("''quoted"), bare("'tis")
        ('=1+1', "'quoted", "'tis")
    """
    rest = cell[1:]
    return rest if cell.startswith(MARK) and rest.lstrip(" ").startswith((*RISKY, MARK)) else cell
