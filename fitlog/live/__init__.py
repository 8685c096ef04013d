"""The customer's page: one read-only page that follows a player's session, for a phone, a tablet or a television."""
