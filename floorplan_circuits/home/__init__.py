"""The value: one frozen `Home` that holds only what the householder states or observed.

Words of this package, and what the trade calls them
----------------------------------------------------
home        one dwelling with its panels, boxes and log of tests
box         outlet, switch or junction box; also a loose cable end. The unit of danger
device      what sits in a gang of a box: receptacle, switch, luminaire, appliance
feed        one supply that a device (or a cable in a box) hangs on. The unit of truth
supply      a breaker, one pole of it, a source, or *elsewhere* (a neighbour, the house service)
breaker     an overcurrent device, fuse included. It protects
handle      what a hand moves: breakers whose handles are tied move together. It switches
pole        the part of a breaker in one space of the panel. It supplies
panel       panelboard, subpanel, consumer unit or local disconnect (a panel of one space)
log         what was seen, in order; struck when mistaken, never erased

Nothing here imports anything else of this project, nor a geometry or graph library.
"""
