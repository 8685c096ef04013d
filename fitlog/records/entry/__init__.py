"""What people type, read into values."""
