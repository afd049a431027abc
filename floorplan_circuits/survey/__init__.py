"""From statements and the log to conclusions: what is known of each feed, and how we know.

Words of this package
---------------------
reading     what one feed showed in one round: dead, live or unclear
witness     what the reading was taken with; a strong one is powered by the mains it tests
alone       a round in which one handle was off beyond those that were found off
proof       live with all as usual, dead with one handle alone off, live again, with a tester proved before and after
standing    unknown, claimed, suggested, traced, proved; beside them expired and contradicted

Where evidence is missing, assume live.
"""
