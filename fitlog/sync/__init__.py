"""Exchange between workspaces, and conflicts between them."""
