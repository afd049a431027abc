"""The plan of test rounds: which handles are off in which round, in what order the rooms are walked, answers read back.

A plan only suggests. What it leaves alone is proved by a solo pass: one handle off, its feeds looked at, back on.
"""
