"""What a person does: one function for each thing, taken by shell and app alike."""
