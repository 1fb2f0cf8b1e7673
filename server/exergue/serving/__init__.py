"""Serving a book: the HTTPS server, the book's own certificate authority, and what the terminal shows."""
