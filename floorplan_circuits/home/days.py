"""Days as people write them: the same in every sentence, on every sheet."""

from datetime import date

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def written(day: str) -> str:
    """Return an ISO day as people write it; what is no day comes back as it is.

    Examples:
        >>> written("2026-03-14"), written("")
        ('14 March 2026', '')
    """
    try:
        found = date.fromisoformat(day)
    except ValueError:
        return day
    return f"{found.day} {MONTHS[found.month - 1]} {found.year}"
