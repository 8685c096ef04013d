"""Settings, live page and files of a workspace."""
