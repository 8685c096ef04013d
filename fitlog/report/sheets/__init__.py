"""What each sheet says."""
