"""Lengths typed over the plan, letter by letter."""

TYPING = frozenset("0123456789.,'\" /mcftinx×′″-½¼¾")
"""The letters that a length may be typed with, `x` between two of them among these."""
ONE_LENGTH = TYPING - frozenset("x×")
"""The same where there is but one."""
LONGEST_TYPED = 30


def typed_further(typed: str, text: str) -> str:
    """Return what is typed with one letter more, up to the longest.

    Examples:
        >>> typed_further("3.8", "1")
        '3.81'
    """
    return (typed + text)[:LONGEST_TYPED]
