"""The questions page: what is worth hitting next, which change did it, and how good predictions were."""
