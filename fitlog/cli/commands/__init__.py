"""The commands, in a folder for each thing a person does; ``fitlog.cli.table`` says which is where."""
