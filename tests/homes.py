"""Homes for tests: a strategy of small wild ones, and a seeded generator of plausible ones with a hidden truth.

`homes()` draws homes that hold every kind of record and always pass the integrity rules. `generate(seed, devices)`
builds a home as a house is built, and keeps what really feeds what: `readings` and `solo_rounds` answer from that.
"""

from tests.homes_built import Generated, generate, readings, solo_rounds, with_log
from tests.homes_wild import homes

__all__ = ["Generated", "generate", "homes", "readings", "solo_rounds", "with_log"]
