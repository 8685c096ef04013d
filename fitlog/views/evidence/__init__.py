"""Evidence in words and shown units, which screens, sheets and shell lay out."""
