"""A bare HTTP server for floors: one ready-made gzip body at /snapshot, files below a folder, an empty page at /."""

import sys
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

PAGE = b"<!doctype html><meta charset=utf-8><meta name=viewport content='width=device-width'><title>Floor</title>"


class Floor(SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    body = b""
    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript", ".wasm": "application/wasm"}

    def do_GET(self):
        if self.path == "/":
            return self.give(PAGE, "text/html")
        if self.path == "/snapshot":
            return self.give(self.body, "application/x-ndjson", "gzip")
        return super().do_GET()

    def give(self, body: bytes, kind: str, encoding: str | None = None):
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        if encoding:
            self.send_header("Content-Encoding", encoding)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_):
        pass


def main(port: int, folder: str, body: str) -> None:
    Floor.body = Path(body).read_bytes() if body != "-" else b""
    handler = lambda *args, **more: Floor(*args, directory=folder, **more)  # noqa: E731
    ThreadingHTTPServer(("127.0.0.1", port), handler).serve_forever()


if __name__ == "__main__":
    main(int(sys.argv[1]), sys.argv[2], sys.argv[3])
