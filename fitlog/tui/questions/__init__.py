"""The questions page: what to hit next, searches, the predictions' record."""
