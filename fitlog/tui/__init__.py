"""The app: five screens over the actions, by keyboard first."""
