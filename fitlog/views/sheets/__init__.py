"""What goes onto each sheet, as plain values."""
