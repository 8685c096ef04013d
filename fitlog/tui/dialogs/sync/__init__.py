"""Dialogs about other vans: the shared place, conflicts."""
