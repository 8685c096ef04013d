"""The help of the shell: the list of commands, and topics."""
