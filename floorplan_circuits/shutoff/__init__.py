"""What to turn off before certain boxes are opened, what that costs, and what it does not do.

The handles nearest the load come first, none of them needless; a feeder or the main stands beside them as a choice.
Nothing here says that a box is dead: the state of each box does, and it is never stronger than the evidence.
"""
