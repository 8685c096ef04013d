"""The shell commands: they call actions and views, and print the results."""
