"""What each kind of file holds, as typed records."""
