"""One module for each command, or for a few that belong together; ``fitlog.cli.table`` says which is where."""
