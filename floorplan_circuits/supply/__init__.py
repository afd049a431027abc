"""What hangs on what: from the sources down to the feeds, as stated. Knows statements, never evidence.

Words of this package, and what graph theory calls them
-------------------------------------------------------
source, panel, main, breaker, pole, feed    nodes of a directed graph
supplies                                    an edge, from what gives power to what takes it
handle                                      the nodes that one hand movement opens together
closed off                                  not reachable from any source once some nodes are opened
"""
