"""Plain HTTP with a cookie jar: what a browser does for the desk and the phone, and nothing more."""

import gzip
import json
import urllib.error
import urllib.request
import uuid
from http.cookiejar import CookieJar


class Wire:
    """One visitor of a server at `base`, with cookies of its own."""

    def __init__(self, base: str):
        self.base = base
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))

    def ask(self, method: str, path: str, data: bytes | None = None, headers: dict | None = None):
        """(status, body, headers) of one request. Redirects are followed; a refusal is no exception."""
        given = {"Accept-Encoding": "gzip", "Origin": self.base} | (headers or {})
        request = urllib.request.Request(self.base + path, data, given, method=method)
        try:
            with self.opener.open(request, timeout=60) as answer:
                return answer.status, self._body(answer), answer.headers
        except urllib.error.HTTPError as answer:
            with answer:
                return answer.code, self._body(answer), answer.headers

    @staticmethod
    def _body(answer) -> bytes:
        data = answer.read()
        return gzip.decompress(data) if answer.headers.get("Content-Encoding") == "gzip" else data

    def json(self, method: str, path: str, body=None) -> tuple[int, dict]:
        """(status, object) of a call of the phone's API."""
        data = None if body is None else json.dumps(body).encode()
        status, answer, _ = self.ask(method, path, data, {"Content-Type": "application/json", "X-Exergue": "1"})
        return status, json.loads(answer)

    def form(self, path: str, fields: list[tuple[str, str]], files: list[tuple[str, str, bytes]] = ()):
        """Post a form as a browser would, as multipart/form-data."""
        boundary = uuid.uuid4().hex
        parts = [(f'name="{name}"', value.encode()) for name, value in fields]
        parts += [(f'name="{name}"; filename="{file}"', data) for name, file, data in files]
        body = b"".join(
            f"--{boundary}\r\nContent-Disposition: form-data; {head}\r\n\r\n".encode() + data + b"\r\n"
            for head, data in parts
        )
        body += f"--{boundary}--\r\n".encode()
        return self.ask("POST", path, body, {"Content-Type": f"multipart/form-data; boundary={boundary}"})
