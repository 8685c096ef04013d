"""The commands, a folder for each area; ``fitlog.cli.table`` has the index."""
