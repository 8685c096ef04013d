"""Read models for screens, sheets and shell. Nothing here changes a file or the history."""
