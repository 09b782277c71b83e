"""Reads a page back as elements, for the tests."""

from dataclasses import dataclass, field
from html.parser import HTMLParser


@dataclass
class Element:
    tag: str
    attributes: dict[str, str | None]
    text: list[str] = field(default_factory=list)


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.elements: list[Element] = []
        self.text: list[str] = []

    def handle_starttag(self, tag, attrs):
        names = [name for name, _ in attrs]
        assert len(set(names)) == len(names), f"<{tag}> has an attribute twice"
        self.elements.append(Element(tag, dict(attrs)))

    def handle_data(self, data):
        self.text.append(data)
        if self.elements:
            self.elements[-1].text.append(data)


def read(html: str | bytes) -> Reader:
    reader = Reader()
    reader.feed(html if isinstance(html, str) else html.decode())
    reader.close()
    return reader


def ids(reader: Reader) -> list[str]:
    return [e.attributes["id"] for e in reader.elements if e.attributes.get("id")]
