"""Cards and sheets: content once, as a small document, and three renderers: text, Markdown, HTML."""
