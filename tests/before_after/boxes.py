"""What a browser would send of a form that nobody has changed."""

from html.parser import HTMLParser

UNSENT = ("submit", "button", "file", "image", "reset")


def boxes_of(page: str, *, action: str = "") -> dict[str, list[str]]:
    """The values by name of the last form on the page with this action; of none, an empty dict."""
    reader = _Boxes()
    reader.feed(page)
    found: dict[str, list[str]] = {}
    for name, value in reader.forms.get(action, []):
        found.setdefault(name, []).append(value)
    return found


class _Boxes(HTMLParser):
    """Fills `forms`: by action, the name and value of each box in turn."""

    def __init__(self) -> None:
        super().__init__()
        self.forms: dict[str, list[tuple[str, str]]] = {}
        self.boxes: list[tuple[str, str]] = []
        self.select = self.text = ""
        self.options: list[tuple[str, bool]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        at = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.boxes = self.forms[at.get("action", "")] = []
        elif tag == "input" and at.get("name") and at.get("type") not in UNSENT:
            if at.get("type") not in ("checkbox", "radio") or "checked" in at:
                self.boxes.append((at["name"], at.get("value", "on" if "checked" in at else "")))
        elif tag == "select":
            self.select, self.options = at.get("name", ""), []
        elif tag == "option":
            self.options.append((at.get("value", ""), "selected" in at))
        elif tag == "textarea":
            self.boxes.append((at.get("name", ""), ""))
            self.text = at.get("name", "")

    def handle_data(self, data: str) -> None:
        if self.text:
            name, so_far = self.boxes[-1]
            self.boxes[-1] = (name, so_far + data)

    def handle_endtag(self, tag: str) -> None:
        if tag == "textarea":
            self.text = ""
        elif tag == "select" and self.options:
            chosen = [value for value, is_chosen in self.options if is_chosen] or [self.options[0][0]]
            self.boxes.extend((self.select, value) for value in chosen)
