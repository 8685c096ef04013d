"""Summaries and the intervals about them: the statistics that everything else stands on."""
