"""The window: Qt only, and nothing about homes is computed here.

What the first frame needs of the rest is loaded here, before Qt: once that is there, its hook in `import` reads the
source of every module loaded after it, and trips over those that are half loaded.
"""

import floorplan_circuits.drawing.overlays
import floorplan_circuits.drawing.plan
import floorplan_circuits.edits.panels
import floorplan_circuits.edits.starting
import floorplan_circuits.edits.ties
import floorplan_circuits.files.open
import floorplan_circuits.files.rescue
import floorplan_circuits.gestures.drawing_rooms
import floorplan_circuits.gestures.putting
import floorplan_circuits.gestures.selecting
import floorplan_circuits.gestures.tying
import floorplan_circuits.sheets.panel_column  # noqa: F401  # each of them for what it loads
