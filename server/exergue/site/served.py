"""Which files may be served, and as what."""

# Named here because the system's own table may say that .js is text/plain.
TYPES = {
    ".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".json": "application/json",
    ".svg": "image/svg+xml", ".png": "image/png", ".webp": "image/webp", ".ico": "image/x-icon",
    ".woff2": "font/woff2", ".woff": "font/woff", ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json", ".txt": "text/plain", "": "text/plain",
}  # fmt: skip
REFUSED = {"package.json", "package-lock.json"}


def type_of(name: str) -> str | None:
    """The media type of a file by its path, or None where it is not to be served."""
    *folders, last = name.split("/")
    if any(part.startswith(".") for part in (*folders, last)) or "node_modules" in folders or last in REFUSED:
        return None
    dot = last.rfind(".")
    return TYPES.get(last[dot:].lower() if dot > 0 else "")
