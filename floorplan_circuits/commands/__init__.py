"""The commands, one file each: its words (`read`) and what it does (`run`, which returns the exit status).

What a command needs is imported when it runs: `--help`, and every other command, wait for none of it.
"""
