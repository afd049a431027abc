"""Small numbers and lists as people write them."""

from collections.abc import Sequence

SMALL = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def in_words(count: int) -> str:
    """Return a small count as a word before a noun.

    Examples:
        >>> in_words(0), in_words(2), in_words(11)
        ('no', 'two', '11')
    """
    return SMALL[count] if 0 <= count < len(SMALL) else str(count)


def listed(words: Sequence[str]) -> str:
    """Join words as a person says them; nothing for none.

    Examples:
        >>> listed([]), listed(["5"]), listed(["5", "7", "9"])
        ('', '5', '5, 7 and 9')
    """
    *most, last = words or ("",)
    return f"{', '.join(most)} and {last}" if most else last


def capital(words: str) -> str:
    """Return the words as a sentence begins, names in them left as they are.

    Examples:
        >>> capital("a label says"), capital("")
        ('A label says', '')
    """
    return words[:1].upper() + words[1:]
