"""What a file may hold: fields, keys, rows, limits, and their JSON Schemas."""
