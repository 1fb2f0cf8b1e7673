"""Answers when something is wrong: a page for people, `{"error": {code, message}}` for programs."""

from flask import Flask, current_app, jsonify, render_template, request
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, InternalServerError, SecurityError

WORDS = {  # status: code, title, one sentence
    400: ("bad_request", "That request made no sense", "Go back and try again."),
    401: ("not_signed_in", "Please sign in", "Sign in to see this page."),
    403: ("forbidden", "Not allowed", "You may not do this."),
    404: ("not_found", "Nothing here", "There is no page at this address."),
    405: ("method_not_allowed", "That cannot be done here", "Go back and try again."),
    409: ("conflict", "Something changed meanwhile", "Go back, look at it anew and try again."),
    413: ("too_large", "That is too large", "What was sent is larger than this page takes. Nothing was changed."),
    415: ("bad_type", "Not that kind of file", "This page does not take that kind of file."),
    429: ("slow_down", "Too many tries", "Wait a little and try again."),
    500: ("fault", "Something went wrong here", "It is a fault of the program; nothing was half written."),
}


def init_app(app: Flask) -> None:
    @app.before_request
    def only_known_hosts():
        # Flask would run the other handlers first, and they must not see a host that is not ours.
        if isinstance(request.routing_exception, SecurityError):
            raise request.routing_exception

    app.register_error_handler(HTTPException, answer)
    app.register_error_handler(Exception, fault)


def fault(error: Exception):
    current_app.logger.exception("%s %s failed", request.method, request.path)
    return answer(InternalServerError())


def answer(error: HTTPException):
    """The response for `error`. Its `code_name`, `title`, `way_out` and `seconds` are used where it has them."""
    if error.response is not None:  # made by abort(response)
        return error.response
    status = error.code or 500
    if status < 400:
        return error  # a redirect
    code, title, usual = WORDS.get(status, WORDS[400 if status < 500 else 500])
    code = getattr(error, "code_name", code)
    message = _message(error, usual)
    if request.path.startswith("/api/"):
        body = {"code": code, "message": message}
        if hasattr(error, "seconds"):
            body["seconds"] = error.seconds
        response = jsonify(error=body)
    else:
        page = render_template("error.html", title=getattr(error, "title", title), message=message, status=status,
                               way_out=getattr(error, "way_out", True))  # fmt: skip
        response = current_app.make_response(page)
    response.status_code = status
    for name, value in error.get_headers():
        if name in ("Allow", "Retry-After"):
            response.headers[name] = value
    return response


def _message(error: HTTPException, usual: str) -> str:
    if isinstance(error, SecurityError):
        return "This desk does not answer to that name. Use the address that it printed when it started."
    if isinstance(error, CSRFError):
        return "This form was opened in another session. Go back, reload the page and send it again."
    own = type(error).__dict__.get("description") if type(error).__module__.startswith("exergue") else None
    given = error.__dict__.get("description")
    return given or own or usual
