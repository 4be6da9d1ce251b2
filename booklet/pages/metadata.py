"""Facts on a file as a packet of XMP (ISO 16684-1; from memory): a small tree of XML."""

from __future__ import annotations

from collections.abc import Mapping
from xml.etree.ElementTree import Element, SubElement, register_namespace, tostring

DC = "http://purl.org/dc/elements/1.1/"
PDF = "http://ns.adobe.com/pdf/1.3/"
XMP = "http://ns.adobe.com/xap/1.0/"
_META = "adobe:ns:meta/"
_RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_XML = "http://www.w3.org/XML/1998/namespace"
_PREFIXES = {"dc": DC, "pdf": PDF, "xmp": XMP, "x": _META, "rdf": _RDF}
# A packet stands between these, so that it is found in a file that is not read as what it is.
_BEGIN = '<?xpacket\tbegin="\ufeff"\tid="W5M0MpCehiHzreSzNTczkc9d"?>'
_END = '<?xpacket\tend="r"?>'


class Metadata:
    """What is said of a file, property by property; what is empty is left out."""

    def __init__(self) -> None:
        for prefix, space in _PREFIXES.items():
            register_namespace(prefix, space)
        self._whole = Element(f"{{{_META}}}xmpmeta")
        rdf = SubElement(self._whole, f"{{{_RDF}}}RDF")
        self._facts = SubElement(rdf, f"{{{_RDF}}}Description", {f"{{{_RDF}}}about": ""})

    def say(self, space: str, key: str, value: str) -> None:
        """Say a value."""
        if value:
            SubElement(self._facts, f"{{{space}}}{key}").text = value

    def list(self, space: str, key: str, kind: str, values: Mapping[str, str]) -> None:
        """Say values by their languages, or without one: a `Bag`, a `Seq`, or `Alt` of which one is taken."""
        said = {language: value for language, value in values.items() if value}
        if not said:
            return
        items = SubElement(SubElement(self._facts, f"{{{space}}}{key}"), f"{{{_RDF}}}{kind}")
        for language, value in said.items():
            spoken = {f"{{{_XML}}}lang": language} if language else {}
            SubElement(items, f"{{{_RDF}}}li", spoken).text = value

    def packet(self) -> bytes:
        """All of it, in UTF-8."""
        return "\n".join([_BEGIN, tostring(self._whole, encoding="unicode"), _END]).encode("utf-8")
