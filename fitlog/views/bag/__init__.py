"""The bag as it is read: clubs, swing weights, findings."""
