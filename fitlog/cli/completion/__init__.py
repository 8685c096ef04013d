"""What a shell may offer while a command is typed."""
