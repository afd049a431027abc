"""Let `python -m floorplan_circuits` do what the command does."""

import sys

from floorplan_circuits.cli import main

sys.exit(main())
