"""Where things are: rooms of boxes, walls, nearness, zones. Groups are opaque keys here."""
