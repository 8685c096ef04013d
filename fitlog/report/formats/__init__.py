"""A sheet as text, Markdown, HTML or PDF."""
