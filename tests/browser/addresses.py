"""The addresses of the program by name, and a walk along links that finds a real one for each."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from html import unescape
from urllib.parse import SplitResult, urljoin, urlsplit

from django.urls import Resolver404, URLPattern, get_resolver, resolve
from playwright.sync_api import APIRequestContext

# No demo link leads there: not signed in; long work failed, or is still being done; in two workrooms;
# invited; after a quick comparison; a secret address, shown once; a scan where there is one; only a script
# asks; an archive was taken out or sent; something was deleted; a list was narrowed (no walk keeps a query);
# too much was sent; a skill is asked for that nobody stated; a wearer was renamed.
NOT_LINKED = {
    "archive-export-detail",
    "archive-export-file",
    "archive-import-detail",
    "archive-import-take",
    "skill-say",
    "wearer-words",
    "deleted-forget",
    "deleted-restore",
    "filter-save",
    "scan-add",
    "scan-tile",
    "calibration-tile",
    "trace-keep",
    "outline-onto-line",
    "sign-in",
    "sign-in-once",
    "too-much",
    "work-again",
    "fitting-hold-worker",
    "work-stop",
    "workroom-choose",
    "invitation-open",
    "invitation-answer",
    "invitation-join",
    "quick-keep",
    "calendar-feed",
    "shared-log",
    "shared-photo",
}

# Pages from which whole subjects hang: each is opened.
LEAD_ON = ("-detail", "-list", "garment-work", "garment-pattern")
FEW = 3

# Of the boxes of a step, as of rows, a few tell of all.
_NUMBER = re.compile(r"\d+|(?<=/steps/)[\w-]+")
_LINK = re.compile(r'(?:href|src)="([^"#]+)')
_POST = re.compile(r'<(?:form|button)[^>]*action="([^"#]+)')


@dataclass
class Walk:
    """What a walk through every link found, by the name of each address."""

    fullest: dict[str, str] = field(default_factory=dict)  # the path whose page is longest
    text: dict[str, str] = field(default_factory=dict)  # of that page; empty where a file was answered
    posts: set[str] = field(default_factory=set)  # names that a form leads to
    broken: list[str] = field(default_factory=list)  # "address: status", linked but not answered

    @property
    def pages(self) -> dict[str, str]:
        """The path of each page, by name."""
        return {name: self.fullest[name] for name, text in sorted(self.text.items()) if text}


def address_names() -> set[str]:
    return set(_names(get_resolver().url_patterns))


def _names(patterns: list) -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLPattern):
            yield pattern.name
        else:
            yield from _names(pattern.url_patterns)


def name_of(path: str) -> str | None:
    try:
        return resolve(path).url_name
    except Resolver404:
        return None


def links_of(page: str, at: str) -> Iterator[SplitResult]:
    """Where the links of the page at that address lead, in turn: those that lead to an address of ours."""
    for link in _LINK.findall(page):
        parts = urlsplit(urljoin(at, unescape(link)))
        if not parts.netloc and name_of(parts.path):
            yield parts


def walk(browser: APIRequestContext, *, is_thorough: bool) -> Walk:
    """Open every address that a page links to, from home on, each path once.

    Of forms and sheets that differ in nothing but the number of their row a few are enough, unless the walk
    is to be thorough.
    """
    found = Walk()
    waiting, seen = ["/"], {"/"}
    opened: Counter[str] = Counter()
    while waiting:
        path = waiting.pop()
        kind = _NUMBER.sub("·", path)
        if opened[kind] == FEW and not is_thorough and not (name_of(path) or "").endswith(LEAD_ON):
            continue
        opened[kind] += 1
        answer, name = browser.get(path), name_of(path)
        text = answer.text() if answer.headers.get("content-type", "").startswith("text/html") else ""
        if not answer.ok:
            found.broken.append(f"{path}: {answer.status}")
        if len(text) >= len(found.text.get(name, "")):
            found.fullest[name], found.text[name] = path, text
        found.posts |= {name_of(urlsplit(urljoin(path, post)).path) for post in _POST.findall(text)}
        new = {link.path for link in links_of(text, path)} - seen
        seen |= new
        waiting.extend(sorted(new))
    return found
