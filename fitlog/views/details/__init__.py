"""Everything known of one player, one part or one venue."""
