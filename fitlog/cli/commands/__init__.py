"""The commands, a folder for each area; ``cli.command_table`` has the index."""
