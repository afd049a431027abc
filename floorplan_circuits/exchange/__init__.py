"""Tables for other programs: the panel's schedule and the list of devices as CSV, out and back in."""
