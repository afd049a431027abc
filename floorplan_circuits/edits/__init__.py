"""Edits: one verb a function, from a home and plain values to another home with a sentence, or `Refused`.

Words of this package
---------------------
edited      the new home and the sentence that the undo menu says
refused     why an edit can't be done; the home stays as it was
misfit      a value that no record can hold, told in words
history     the very homes that were, back to the last entry of the log
ground      the home to edit: the one now, its counters past all that was undone
gone        ids that are removed, with all that is nested in them
contents    what moves and is copied with a room
clip        what was copied, as it was
"""
