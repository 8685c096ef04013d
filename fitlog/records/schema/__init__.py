"""What a file may hold: fields, keys, rows, limits, and the JSON Schemas made of them."""
