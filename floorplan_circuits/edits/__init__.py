"""Edits: one verb a function, from a home and plain values to another home with a sentence, or `Refused`.

Words of this package
---------------------
edited      the new home and the sentence that the undo menu says
refused     why an edit can't be done; the home stays as it was
history     the very homes that were, back to the last entry of the log
gone        ids that are removed, with all that is nested in them
"""
