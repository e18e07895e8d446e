# SPDX-License-Identifier: GPL-2.0-or-later
"""XML of other people: elements by local name with their lines, and bounds that no file passes."""

from __future__ import annotations

import time
import tracemalloc

import pytest

from plugin.core.errors import BadInput
from plugin.core.findings import Severity
from plugin.core.read import xml_text
from plugin.core.read.xml_text import Break, XmlText, tell_break


def read(data, *wanted, **leaves):
    data = data.encode() if isinstance(data, str) else data
    xml = XmlText("a.xml", data, frozenset(wanted), leaves)
    return xml, list(xml)


def message_of(data, *wanted):
    with pytest.raises(BadInput) as caught:
        read(data, *wanted)
    return str(caught.value)


def test_a_wanted_element_has_its_name_attributes_text_line_and_children():
    xml, (b,) = read('<a u="1">\n<b v="2"> x<c>y</c>z </b>\n<d/></a>', "b")
    assert (xml.root.name, xml.root.attributes, xml.root.line) == ("a", {"u": "1"}, 1)
    assert (b.name, b.attributes, b.line, b.text) == ("b", {"v": "2"}, 2, " xz ")
    assert [(c.name, c.text) for c in b.children] == [("c", "y")]
    assert (b.text_of("c"), b.text_of("e"), b.child("e"), len(b.every("c"))) == ("y", "", None, 1)
    assert [parent.name for parent in b.parents] == ["a"]
    assert b.is_whole
    assert xml.broken is None


def test_prefixes_and_namespaces_are_dropped():
    text = '<q:a xmlns:q="urn:one" xmlns="urn:two" q:u="1"><q:b q:v="2" v="3"/><b/></q:a>'
    xml, found = read(text, "b")
    assert (xml.root.name, dict(xml.root.attributes)) == ("a", {"u": "1"})
    assert [(b.name, dict(b.attributes)) for b in found] == [("b", {"v": "3"}), ("b", {})]


def test_the_outermost_wanted_wins_and_each_has_what_stands_around_it():
    _, found = read('<a><s n="1"><b><b>in</b></b></s><s n="2"><b/></s></a>', "b")
    assert [[p.attributes.get("n") for p in b.parents] for b in found] == [[None, "1"], [None, "2"]]
    assert found[0].children[0].text == "in"


def test_leaves_are_columns_of_their_parent():
    text = '<a><s>\n<p id="1">1 2</p>\n<p>3<x>no</x> 4</p><q/></s></a>'
    _, (s,) = read(text, "s", p=("id", "i"))
    leaves = s.leaves["p"]
    assert leaves.text == ["1 2", "3 4"]
    assert list(leaves.line) == [2, 3]
    assert leaves.attributes == {"id": ["1", ""], "i": ["", ""]}
    assert [child.name for child in s.children] == ["q"]


def test_the_sections_below_the_root_are_known_by_their_first_lines():
    xml, _ = read("<a>\n<b/>\n<c><d/></c>\n<b/></a>", "d")
    assert dict(xml.sections) == {"b": 2, "c": 3}


@pytest.mark.parametrize(
    ("rest", "line", "wholes"),
    [
        ("", 2, [True]),
        ("\n<b", 3, [True]),
        ("\n<b>tw", 3, [True, False]),
        ("\n<b>two<c/", 3, [True, False]),
        ("\n<b>two<c/>\n</b></a", 4, [True, True]),
    ],
)
def test_a_file_cut_short_gives_what_stood_before_it(rest, line, wholes):
    xml, found = read(f"<a>\n<b>one</b>{rest}", "b")
    assert found[0].text == "one"
    assert [b.is_whole for b in found] == wholes
    assert (xml.broken.line, xml.broken.is_end) == (line, True)


def test_a_leaf_without_an_end_is_dropped():
    _, (s,) = read('<a><s><p id="1">1</p><p id="2">2', "s", p=("id",))
    assert (s.leaves["p"].text, list(s.leaves["p"].line), s.leaves["p"].attributes) == (
        ["1"],
        [1],
        {"id": ["1"]},
    )
    assert not s.is_whole


def test_a_mistake_in_the_middle_is_told_with_its_line_and_reason():
    xml, found = read("<a>\n<b>one</b>\n<b>1 < 2</b></a>", "b")
    assert [b.is_whole for b in found] == [True, False]
    assert xml.broken == Break(3, "not well-formed (invalid token)", is_end=False)
    finding = tell_break("a.xml", xml.broken)
    assert (finding.code, finding.severity, finding.answers) == ("IN-01", Severity.STOP, ("left out",))
    assert finding.message == (
        "a.xml, line 3: the XML is wrong from here on (not well-formed (invalid token))."
    )
    assert finding.remedy_text == "Correct the line or write the file anew; what stood before was read."


def test_a_file_that_breaks_off_says_so():
    xml, _ = read("<a>\n<b/>\n", "b")
    assert tell_break("a.xml", xml.broken).message == "a.xml, line 3: the file breaks off here."


@pytest.mark.parametrize("data", ["", "   ", "x,y\n1,2\n", "<", "<a b=1>", b"\x00\x00\x00"])
def test_what_is_no_xml_is_refused(data):
    assert message_of(data).startswith("a.xml, line 1: this is not XML (")


@pytest.mark.parametrize(
    ("encoding", "codec"),
    [
        ("UTF-8", "utf-8"),
        ("utf8", "utf-8-sig"),
        ("ISO-8859-1", "latin-1"),
        ("Latin1", "latin-1"),
        ("windows-1252", "cp1252"),
        ("UTF-16", "utf-16"),
        ("UTF-16", "utf-16-le"),
        ("UTF-16", "utf-16-be"),
        ("UTF-16", "utf-8"),
        ("UTF-8", "utf-16"),
    ],
)
def test_encodings_are_read_as_declared_or_as_found(encoding, codec):
    data = f'<?xml version="1.0" encoding="{encoding}"?><a>Gärtnerweg</a>'.encode(codec)
    xml, (a,) = read(data, "a")
    assert a.text == "Gärtnerweg"
    assert not xml.is_assumed_latin
    assert xml.broken is None


def test_the_euro_sign_of_windows_1252_is_read():
    _, (a,) = read('<?xml version="1.0" encoding="Windows-1252"?><a>€</a>'.encode("cp1252"), "a")
    assert a.text == "€"


def test_latin_1_that_does_not_say_so_is_read_and_marked():
    xml, (a,) = read("<a>Böschung</a>".encode("latin-1"), "a")
    assert (a.text, xml.is_assumed_latin) == ("Böschung", True)


def test_another_encoding_is_refused():
    assert message_of('<?xml version="1.0" encoding="EUC-JP"?><a/>') == (
        'a.xml, line 1: the encoding "EUC-JP" is not read. Save the file as UTF-8.'
    )


LAUGHS = '<?xml version="1.0"?>\n<!DOCTYPE a [<!ENTITY b "ha">' + "".join(
    f'<!ENTITY b{i} "{"&b" + str(i - 1 or "") + ";"}">' for i in range(1, 9)
)


@pytest.mark.parametrize(
    "text",
    [
        LAUGHS + "]><a>&b8;</a>",
        '<?xml version="1.0"?>\n<!DOCTYPE a SYSTEM "other.dtd"><a/>',
        '<?xml version="1.0"?>\n<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/hostname">]><a>&b;</a>',
        '<?xml version="1.0"?>\n<!DOCTYPE a><a/>',
    ],
)
def test_documents_that_declare_a_type_or_an_entity_are_refused(text):
    assert message_of(text, "a") == (
        "a.xml, line 2: the file declares a document type or an entity (<!DOCTYPE, <!ENTITY), which can make a "
        "small file boundless. Take the declaration out."
    )


def test_an_entity_that_nothing_declares_breaks_off():
    xml, (a,) = read("<a>1 &b; 2</a>", "a")
    assert not a.is_whole
    assert xml.broken == Break(1, "undefined entity", is_end=False)


def test_elements_nest_a_hundred_deep_and_no_deeper():
    _, found = read("<a>" * 100 + "</a>" * 100, "b")
    assert found == []
    assert message_of("<a>" * 101) == (
        "a.xml, line 1: more than 100 elements stand within one another. Write the file anew."
    )
    assert message_of("<a>" * 1_000_000) == message_of("<a>" * 101)


def test_the_number_of_elements_is_bounded(monkeypatch):
    monkeypatch.setattr(xml_text, "MOST_ELEMENTS", 10)
    assert len(read("<a>" + "<b/>" * 9 + "</a>", "b")[1]) == 9
    assert message_of("<a>" + "<b/>" * 10 + "</a>") == (
        "a.xml, line 1: there are more than 10 elements. Split the file."
    )


def test_the_size_of_the_file_is_bounded(monkeypatch):
    monkeypatch.setattr(xml_text, "LARGEST_FILE", 10)
    assert message_of("<a>12345</a>") == "a.xml has 12 bytes, more than 10. Split it."


@pytest.mark.parametrize(
    "data",
    [
        b"<a><b>\n" + b"x" * 200_000 + b"</b></a>",
        b"<a>\n<p>" + b"x" * 200_000 + b"</p></a>",
        b"<a>\n<b c='" + b"x" * 400_000 + b"'/></a>",
        b"<a>\n<!--" + b"x" * 400_000 + b"--></a>",
    ],
)
def test_the_length_of_one_element_is_bounded(monkeypatch, data):
    monkeypatch.setattr(xml_text, "LARGEST_TEXT", 100_000)
    monkeypatch.setattr(xml_text, "LARGEST_CHUNK", 65_536)
    with pytest.raises(BadInput) as caught:
        read(data, "a", p=())
    assert str(caught.value).endswith(
        ": one element, tag or comment has more than 100000 characters. Split it."
    )


def test_a_hundred_megabyte_attribute_is_refused_at_once():
    data = b"<a><b c='" + b"x" * 100_000_000 + b"'/></a>"
    start = time.process_time()
    with pytest.raises(BadInput):
        read(data, "a")
    assert time.process_time() - start < 10


def test_memory_follows_what_is_kept_not_the_file():
    data = b"<a>" + b"<b c='1'>some text that nobody wants</b>" * 200_000 + b"<d>kept</d></a>"
    tracemalloc.start()
    _, (d,) = read(data, "d")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert d.text == "kept"
    assert peak < 2_000_000
