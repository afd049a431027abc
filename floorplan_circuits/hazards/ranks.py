"""How likely a hand meets a live conductor: the ranks of hazards, most likely first."""

LIVE_WHATEVER_IS_OFF = 0
"""No breaker is known to make it dead, or tests say that one does not."""
SECOND_CIRCUIT = 1
"""Turning off what seems to be its breaker leaves a conductor live."""
AT_TIMES = 2
"""It is live only now and then: when a tied breaker trips alone, when a neutral is opened under load."""
OUT_OF_DATE = 3
"""What was known may not be true any more, or cannot be true as it stands."""
NOT_KNOWN = 4
"""Nobody knows; whoever opens it is told to treat it as live anyway."""
BY_A_FAULT = 5
"""It takes a fault, or a second mistake, before a hand meets anything."""
BY_HEAT = 6
"""What can overheat; a hand meets nothing live by it."""
