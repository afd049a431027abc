"""From statements and the log to conclusions: what is known of each feed, and how we know.

Words of this package
---------------------
stated      what the map says a feed hangs on, chains of 'behind' followed, power that runs back among it
reading     what one feed showed in one round: dead, live or unclear
witness     what the reading was taken with; a strong one is powered by the mains it tests
alone       a round in which one handle was off beyond those that were found off
proof       live with all as usual, dead with one handle alone off, live again, with a tester proved before and after
lapsed      older than the last change of what the feed hangs on: it concludes nothing
standing    unknown, claimed, suggested, traced, proved; beside them expired and contradicted

Where evidence is missing, assume live. Nothing here may say more than the evidence does:

- a struck entry does not count, unless the entry that strikes it is itself struck;
- what a newer program's entry names is unknown, and a round or opening that it names concludes nothing;
- a change that names no box and no panel may have touched anything: all that is older lapses;
- a handle that 'did not open' contradicts every feed on it, until a later test proves that feed on it or its panel
  was worked on;
- a feed keeps the breakers and supplies that were stated or tested whatever its standing, so that no unknown hides a
  shared box.
"""
