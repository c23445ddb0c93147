"""XML from a stranger: no DOCTYPE, so no entities and nothing from elsewhere; limited in size and depth.

No XML from outside is read in any other way.
"""

from dataclasses import dataclass, field
from xml.parsers import expat

from catalogue.lengths.calculation.errors import NotUnderstood

MOST_ELEMENTS, DEEPEST = 20_000, 60


class XmlRefused(NotUnderstood):
    """A file that is not read; `sentence` says why."""


@dataclass(slots=True, kw_only=True)
class Element:
    """`name` and the names of `attributes` are without their namespaces; `text` is what it begins with."""

    name: str
    attributes: dict[str, str]
    children: list["Element"] = field(default_factory=list)
    text: str = ""

    def titled(self) -> str:
        """The text of its <title>."""
        return next((" ".join(child.text.split()) for child in self.children if child.name == "title"), "")


def read_xml(text: str) -> Element:
    """The root of a document. Raises XmlRefused."""
    tree = _Tree()
    # What the file says of its own encoding no longer holds: it is text by now.
    parser = expat.ParserCreate("utf-8", " ")
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = tree.refuse_doctype
    parser.StartElementHandler = tree.start
    parser.EndElementHandler = tree.end
    parser.CharacterDataHandler = tree.write
    try:
        parser.Parse(text.encode(), True)
    except expat.ExpatError as fault:
        sentence = f"This file is not whole XML: {expat.ErrorString(fault.code)} in line {fault.lineno}."
        raise XmlRefused(sentence) from None
    except UnicodeEncodeError:
        raise XmlRefused("This file holds characters that stand for nothing.") from None
    return tree.root


class _Tree:
    root: Element

    def __init__(self) -> None:
        self.open: list[Element] = []
        self.count = 0

    def refuse_doctype(self, *_: object) -> None:
        raise XmlRefused("This file has a DOCTYPE, which could draw in other files: save it as plain SVG.")

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self.count += 1
        if self.count > MOST_ELEMENTS or len(self.open) >= DEEPEST:
            raise XmlRefused(f"This drawing has more than {MOST_ELEMENTS:,} parts, or nests them too deep.")
        element = Element(name=_local(name), attributes={_local(key): it for key, it in attributes.items()})
        if self.open:
            self.open[-1].children.append(element)
        else:
            self.root = element
        self.open.append(element)

    def end(self, _: str) -> None:
        self.open.pop()

    def write(self, text: str) -> None:
        if not self.open[-1].children:
            self.open[-1].text += text


def _local(name: str) -> str:
    return name.rpartition(" ")[2]
