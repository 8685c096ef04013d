"""The workspace: players, parts, venues, exchange between vans."""
