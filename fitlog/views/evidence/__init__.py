"""Evidence in words: what screens, sheets and the shell all print, in the units shown. They only lay it out."""
