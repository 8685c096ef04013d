"""The workspace as a whole: make it, mend it, back it up."""
