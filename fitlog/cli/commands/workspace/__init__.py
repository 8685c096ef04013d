"""The workspace and what is kept beside the clubs: players, parts, venues, exchange between vans."""
