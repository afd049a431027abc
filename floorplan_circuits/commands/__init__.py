"""The commands, one file each: its words (`read`) and what it does (`run`, which returns the exit status)."""
