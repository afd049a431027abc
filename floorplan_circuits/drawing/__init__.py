"""The one picture: ink made from a home and its findings, the same for screen, PDF and SVG.

Words of this package
---------------------
ink       a group of marks; all its lengths are paper millimetres, y down, letters in points
mark      shape, text, stamp, hatch, picture or group: a small closed set, all frozen
scale     house millimetres a paper millimetre; a plan's ink is made for one scale
plate     the small label with a circuit's number: the more evidence, the more ink
housing   the drawn outline of a box with its gangs

Imports only `home`, `findings` and `view`, and no surface.
"""
