"""What clubs carry at a venue or in the reference air, and wedges by swing."""
