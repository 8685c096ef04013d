"""TOML text: changed in place, its comments kept, its slips told."""
