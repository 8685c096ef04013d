"""The first page, where no workspace is."""
