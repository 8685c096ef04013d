"""The dialogs in which a club's setup and the parts in stock are chosen."""
