"""Cards and sheets: content once, as a document, and its renderers."""
