"""Shots from files: one file, several clubs, a folder that is watched."""
