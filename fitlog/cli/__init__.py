"""The shell commands. They call ``fitlog.actions`` and the computing rooms, and print what comes back."""
