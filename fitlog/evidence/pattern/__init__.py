"""The shots of one club together: where they land, their shape, strikes and mishits."""
