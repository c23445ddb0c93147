"""What stands round every view: the Content-Security-Policy, answers to what cannot be or is too much."""

import logging
from collections.abc import Callable

from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.views.defaults import bad_request, page_not_found

POLICY = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]
)


def content_security_policy(get_response: Callable[[HttpRequest], HttpResponse]):
    def answer(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        return response

    return answer


def impossible_numbers(get_response: Callable[[HttpRequest], HttpResponse]):
    """A row number beyond 64 bits, which no page sends: SQLite raises where PostgreSQL finds nothing."""

    def answer(request: HttpRequest) -> HttpResponse:
        return get_response(request)

    def process_exception(request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if isinstance(exception, OverflowError) and "SQLite INTEGER" in str(exception):
            return page_not_found(request, exception)
        return None

    answer.process_exception = process_exception
    return answer


def refusal(request: HttpRequest, exception: Exception) -> HttpResponse:
    """The answer to what Django refuses to read."""
    if isinstance(exception, RequestDataTooBig | TooManyFieldsSent | TooManyFilesSent):
        return HttpResponse(render_to_string("413.html"), status=413)
    return bad_request(request, exception)


# Whoever has an address that begins like this needs nothing else.
SECRET_PATHS = ("/sign-in/once/", "/invited/", "/calendar/", "/shown/")


class WithoutSecrets(logging.Filter):
    """What is logged of a request that was refused names its path: the secret part is left out."""

    def filter(self, record: logging.LogRecord) -> bool:
        if isinstance(record.args, tuple):
            record.args = tuple(map(_without_secret, record.args))
        return True


def _without_secret(said: object) -> object:
    for path in SECRET_PATHS:
        before, found, _ = said.partition(path) if isinstance(said, str) else ("", "", "")
        if found:
            return f"{before}{path}…"
    return said
