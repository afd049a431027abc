"""How a handle is worked, in words: a breaker is turned off, a fuse taken out with its loads off.

Common practice, no source: a fuse drawn under load arcs, and the shell or clips that held it stay live.
"""

from collections.abc import Iterable

from floorplan_circuits.home.home import Home

FUSE_CARE = "Its loads off first. Touch no metal: the shell that held it stays live."
FUSE_STAYS_LIVE = "The shell that held it stays live: touch no metal."
FUSE_KEPT = "Keep each fuse with you and cover its shell, for it stays live."
FUSE_BACK = "A fuse goes back with its loads off, of the same rating."


def is_fuse(home: Home, handle: int) -> bool:
    """Tell whether a handle is a fuse; a main is a handle to turn."""
    found = home.breakers.get(handle)
    return found is not None and found.device == "fuse"


def any_fuse(home: Home, handles: Iterable[int]) -> bool:
    """Tell whether a fuse is among these handles."""
    return any(is_fuse(home, handle) for handle in handles)


def to_open(home: Home, handles: Iterable[int], called: str) -> str:
    """Return what to do with handles that move together, under the name they have: 'Turn off 3', 'Take out fuse 5'."""
    all_of_them = tuple(handles)
    if not any_fuse(home, all_of_them):
        return f"Turn off {called}"
    if all(is_fuse(home, handle) for handle in all_of_them):
        return f"Take out {'fuse' if len(all_of_them) == 1 else 'fuses'} {called}"
    return f"Turn off or take out {called}"
