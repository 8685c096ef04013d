"""What differs between Linux, macOS and Windows: files, processes, the viewer.

No other room asks which system it runs on. Forms are chosen by what the system offers, so that each can be tested
where the others' calls are missing.
"""
