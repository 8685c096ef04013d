"""One function per thing a person does; the only way in for the shell and the screens."""
