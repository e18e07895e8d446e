# SPDX-License-Identifier: GPL-2.0-or-later
"""XML bytes -> elements, one after another, with bounds on everything that a file could make grow.

A reader names the elements it wants; each is given when its end is read, and nothing else is kept. Names lose their
prefix and namespace. What stands before a mistake is given all the same, and the mistake is kept as a `Break`:

    xml = XmlText(file, data, frozenset({"wpt", "trkpt"}))
    if xml.root.name != "gpx": ...
    for element in xml: ...
    if xml.broken: findings.append(tell_break(file, xml.broken))
"""

from __future__ import annotations

from array import array
from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import NamedTuple, NoReturn
from xml.parsers import expat

from ..errors import BadInput
from ..findings import Finding
from .faults import Fault, unreadable
from .xml_encoding import encoding_of

LARGEST_FILE = 10**9
"""Bytes."""
LARGEST_TEXT = 64 * 2**20
"""Bytes or characters of one element's text, or of one tag, comment or the like."""
MOST_ELEMENTS = 20_000_000
DEEPEST = 100
"""Elements within one another."""
MOST_SECTIONS = 1000
"""Different names of the root's own children that are kept."""
CHUNK = 65_536
LARGEST_CHUNK = 16 * 2**20
"""Bytes given to the parser at once. Where a chunk ends no tag the next is twice as long: older parsers (expat before
2.6) scan an unfinished tag from its start again with each."""
_CUT_SHORT = frozenset(
    expat.errors.codes[words]
    for words in (
        expat.errors.XML_ERROR_NO_ELEMENTS,
        expat.errors.XML_ERROR_UNCLOSED_TOKEN,
        expat.errors.XML_ERROR_UNCLOSED_CDATA_SECTION,
        expat.errors.XML_ERROR_PARTIAL_CHAR,
    )
)

CUT_SHORT = Fault(
    template="{file}, line {line}: the file breaks off here.",
    remedy="Give the whole file; what stood before was read.",
)
BROKEN = Fault(
    template="{file}, line {line}: the XML is wrong from here on ({reason}).",
    remedy="Correct the line or write the file anew; what stood before was read.",
)


@dataclass(frozen=True)
class Break:
    """Where reading broke off: the line, the parser's reason, and whether the file ends there too early."""

    line: int
    reason: str
    is_end: bool


@dataclass(frozen=True)
class Leaves:
    """Elements of one name in one parent as columns: many small ones need little memory so.

    Attributes:
        text: of each. line: of each, from 1. attributes: the columns asked for, "" where one is not given.
    """

    text: list[str] = field(default_factory=list)
    line: array[int] = field(default_factory=lambda: array("q"))
    attributes: dict[str, list[str]] = field(default_factory=dict)


class Element(NamedTuple):
    """An element: its local name, attributes by local name, own text (not its children's), and its line, from 1.

    `leaves` holds the children that were asked for as columns, by name; `parents` the elements around a wanted
    one, outermost first, without text and children; `is_whole` is False where the file broke off in it.
    """

    name: str
    attributes: Mapping[str, str]
    line: int
    text: str = ""
    children: tuple[Element, ...] = ()
    leaves: Mapping[str, Leaves] = MappingProxyType({})
    parents: tuple[Element, ...] = ()
    is_whole: bool = True

    def child(self, name: str) -> Element | None:
        """The first child of a name, None where there is none."""
        return next((child for child in self.children if child.name == name), None)

    def every(self, name: str) -> tuple[Element, ...]:
        """All children of a name, in order."""
        return tuple(child for child in self.children if child.name == name)

    def text_of(self, name: str) -> str:
        """The text of the first child of a name without blanks around it, "" where there is none."""
        child = self.child(name)
        return child.text.strip() if child else ""


class XmlText:
    """The wanted elements of an XML file, in order of their ends; to be gone through once.

    Attributes:
        sections: line of the first of each of the root's own children, by name, as far as was read.
        broken: where reading broke off; None while, and if, all is well.
        is_assumed_latin: the bytes are no UTF-8 and were taken for Latin-1.
    """

    def __init__(
        self,
        file: str,
        data: bytes,
        wanted: frozenset[str],
        leaves: Mapping[str, tuple[str, ...]] = MappingProxyType({}),
    ) -> None:
        """Look at the start of a file.

        Args:
            file: its name, for messages.
            data: its bytes.
            wanted: local names of the elements to give; in one wanted all is kept, so the outermost counts.
            leaves: local names of elements inside wanted ones that are kept as columns of their parent, each with
                the attributes to keep; what stands in them but text is dropped.

        Raises:
            BadInput: too large, in another encoding, or not XML; also while going through it: a document type or
                entity declared, or a bound passed.
        """
        if len(data) > LARGEST_FILE:
            raise BadInput(
                "{file} has {size} bytes, more than {largest}. Split it.",
                file=file, size=len(data), largest=LARGEST_FILE,
            )  # fmt: skip
        self._file = file
        self._data = memoryview(data)
        encoding, self.is_assumed_latin = encoding_of(file, data)
        self._parser = expat.ParserCreate(encoding)
        self._tree = _Tree(file, self._parser, wanted, leaves)
        self.sections: Mapping[str, int] = MappingProxyType(self._tree.sections)
        self.broken: Break | None = None
        self._pieces = self._read()
        while self._tree.root is None and self.broken is None:
            next(self._pieces)
        if self._tree.root is None and self.broken:
            raise BadInput(
                "{file}, line {line}: this is not XML ({reason}). Give a whole file of the kind that its name says.",
                file=file, line=self.broken.line, reason=self.broken.reason,
            )  # fmt: skip

    @property
    def root(self) -> Element:
        """The outermost element, without text and children."""
        assert self._tree.root is not None  # noqa: S101 - else __init__ raised
        return self._tree.root

    def __iter__(self) -> Iterator[Element]:
        """Each wanted element when its end is read; the one that the file breaks off in comes last."""
        while True:
            while self._tree.ready:
                yield self._tree.ready.popleft()
            if next(self._pieces, None) is None:
                return

    def _read(self) -> Iterator[bool]:
        """Parse chunk after chunk."""
        at, length, silent = 0, CHUNK, 0
        while self.broken is None and at <= len(self._data):
            is_last = at + length >= len(self._data)
            before = self._tree.steps
            try:
                self._parser.Parse(self._data[at : at + length], is_last)
            except expat.ExpatError as error:
                self.broken = Break(error.lineno, expat.ErrorString(error.code), error.code in _CUT_SHORT)
                self._tree.close_all()
            at = len(self._data) + 1 if is_last else at + length
            is_silent = self._tree.steps == before
            silent = silent + length if is_silent else 0
            length = min(2 * length, LARGEST_CHUNK) if is_silent else CHUNK
            if silent > LARGEST_TEXT:
                _refuse_long(self._file, self._parser.CurrentLineNumber)
            yield True


def tell_break(file: str, broken: Break, place: str = "survey") -> Finding:
    """The IN-01 stop for a file that breaks off; `left out` answers it."""
    fault = CUT_SHORT if broken.is_end else BROKEN
    return unreadable(file, broken.line, fault, {} if broken.is_end else {"reason": broken.reason}, place)


class _Open:
    """An element whose end is still to come."""

    def __init__(self, name: str, attributes: Mapping[str, str], line: int) -> None:
        self.name, self.attributes, self.line = name, attributes, line
        self.texts: list[str] = []
        self.size = 0
        self.children: list[Element] = []
        self.leaves: dict[str, Leaves] = {}

    def closed(self, parents: tuple[Element, ...], *, is_whole: bool) -> Element:
        text = "".join(self.texts)
        return Element(
            self.name, self.attributes, self.line, text, tuple(self.children), self.leaves, parents, is_whole
        )


class _Tree:
    """Takes the parser's events and builds what is wanted."""

    def __init__(
        self,
        file: str,
        parser: expat.XMLParserType,
        wanted: frozenset[str],
        leaves: Mapping[str, tuple[str, ...]],
    ) -> None:
        self._file, self._parser = file, parser
        self._wanted, self._columns = wanted, leaves
        self.root: Element | None = None
        self.sections: dict[str, int] = {}
        self.ready: deque[Element] = deque()
        self.steps = 0
        self._elements = 0
        self._depth = 0
        self._around: list[Element] = []
        self._open: list[_Open] = []
        self._leaf: Leaves | None = None
        self._leaf_depth = 0
        self._texts: list[str] = []
        self._size = 0
        parser.buffer_text = True
        parser.buffer_size = CHUNK
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._text
        parser.StartDoctypeDeclHandler = self._refuse_doctype
        parser.EntityDeclHandler = self._refuse_doctype

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self.steps += 1
        self._elements += 1
        self._depth += 1
        if self._depth > DEEPEST or self._elements > MOST_ELEMENTS:
            self._refuse_size()
        if self._leaf is not None:
            return
        if ":" in name:
            name = name.rpartition(":")[2]
        line = self._parser.CurrentLineNumber
        if self._open and name in self._columns:
            self._start_leaf(name, attributes, line)
        elif self._open or name in self._wanted:
            self._open.append(_Open(name, _local(attributes), line))
        else:
            self._around.append(Element(name, _local(attributes), line))
        if self._depth <= 2:
            self._note_section(name, attributes, line)

    def _start_leaf(self, name: str, attributes: Mapping[str, str], line: int) -> None:
        parent = self._open[-1].leaves
        leaf = parent.get(name)
        if leaf is None:
            leaf = parent[name] = Leaves(attributes={column: [] for column in self._columns[name]})
        leaf.line.append(line)
        for column, cells in leaf.attributes.items():
            cells.append(attributes.get(column, ""))
        self._leaf, self._leaf_depth = leaf, self._depth
        self._texts, self._size = [], 0

    def _note_section(self, name: str, attributes: dict[str, str], line: int) -> None:
        if self._depth == 1:
            self.root = Element(name, _local(attributes), line)
        elif len(self.sections) < MOST_SECTIONS:
            self.sections.setdefault(name, line)

    def _text(self, text: str) -> None:
        self.steps += 1
        if self._leaf is not None:
            if self._depth == self._leaf_depth:
                self._texts.append(text)
                self._size += len(text)
                if self._size > LARGEST_TEXT:
                    _refuse_long(self._file, self._parser.CurrentLineNumber)
        elif self._open:
            top = self._open[-1]
            if (top.leaves or top.children) and text.isspace():
                return
            top.texts.append(text)
            top.size += len(text)
            if top.size > LARGEST_TEXT:
                _refuse_long(self._file, top.line)

    def _end(self, _name: str) -> None:
        self.steps += 1
        self._depth -= 1
        if self._leaf is not None:
            if self._depth < self._leaf_depth:
                self._leaf.text.append("".join(self._texts))
                self._leaf = None
        elif self._open:
            self._close(is_whole=True)
        else:
            self._around.pop()

    def _close(self, *, is_whole: bool) -> None:
        last = self._open.pop()
        if self._open:
            self._open[-1].children.append(last.closed((), is_whole=is_whole))
        else:
            self.ready.append(last.closed(tuple(self._around), is_whole=is_whole))

    def close_all(self) -> None:
        """End what is open where the file breaks off; a leaf that has no end is dropped."""
        if self._leaf is not None:
            self._leaf.line.pop()
            for cells in self._leaf.attributes.values():
                cells.pop()
            self._leaf = None
        while self._open:
            self._close(is_whole=False)

    def _refuse_doctype(self, *_declared: object) -> NoReturn:
        raise BadInput(
            "{file}, line {line}: the file declares a document type or an entity (<!DOCTYPE, <!ENTITY), which can make "
            "a small file boundless. Take the declaration out.",
            file=self._file, line=self._parser.CurrentLineNumber,
        )  # fmt: skip

    def _refuse_size(self) -> NoReturn:
        line = self._parser.CurrentLineNumber
        if self._depth > DEEPEST:
            raise BadInput(
                "{file}, line {line}: more than {most} elements stand within one another. Write the file anew.",
                file=self._file, line=line, most=DEEPEST,
            )  # fmt: skip
        raise BadInput(
            "{file}, line {line}: there are more than {most} elements. Split the file.",
            file=self._file, line=line, most=MOST_ELEMENTS,
        )  # fmt: skip


def _refuse_long(file: str, line: int) -> NoReturn:
    raise BadInput(
        "{file}, line {line}: one element, tag or comment has more than {most} characters. Split it.",
        file=file, line=line, most=LARGEST_TEXT,
    )  # fmt: skip


def _local(attributes: dict[str, str]) -> Mapping[str, str]:
    """Attributes by local name, without declarations of namespaces; one without a prefix goes first."""
    if not any(":" in name or name == "xmlns" for name in attributes):
        return attributes
    own = {name: value for name, value in attributes.items() if ":" not in name and name != "xmlns"}
    for name, value in attributes.items():
        prefix, _, local = name.rpartition(":")
        if prefix and prefix != "xmlns":
            own.setdefault(local, value)
    return own
