"""Gestures: each tool a pure step from what the hand does to an edit. No Qt here.

Words of this package
---------------------
tool      what is in hand, with what it remembers between two events
event     what the hand did, in house millimetres: press, move, release, key
context   what the tool may look at: the home, the level, what is selected
outcome   the next tool, at most one edit, what to draw meanwhile, and a sentence for the status line
draft     what is drawn while a gesture goes on; it never enters the home

Nothing changes until a gesture ends, then exactly one edit. Escape drops the draft.
"""
