"""The shots of one club together: landing, shape, strikes and mishits."""
