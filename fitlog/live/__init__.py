"""The customer's page: one read-only page that follows a player's session."""
