"""Read models for screens, sheets and shell; nothing here changes anything."""
