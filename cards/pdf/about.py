"""What a file says of itself: title, maker, date, languages; no clock is read."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape

import cards
from cards.card.model import CardMeta
from cards.layout.pages import Pages, TextItem
from cards.pdf.code import Code, dictionary, name, string
from cards.pdf.document import Document
from cards.pdf.structure import ANY_LANGUAGE

MAKER = f"recipe-cards {cards.__version__}"


def languages(pages: Pages) -> tuple[str, ...]:
    """The document's language, then the others in the order they are met."""
    met = (i.language for p in pages.pages for i in p.items if isinstance(i, TextItem))
    found = dict.fromkeys((pages.meta.language, *met))
    return tuple(language for language in found if language != ANY_LANGUAGE)


def information(meta: CardMeta) -> Code:
    """The information dictionary. A recipe without a date gives a file without one."""
    said = {
        "Title": meta.title,
        "Author": meta.author,
        "Subject": meta.subject,
        "Keywords": meta.keywords,
        "Creator": MAKER,
        "Producer": MAKER,
    }
    if meta.revised:
        day = f"D:{meta.revised.replace('-', '')}"
        said |= {"CreationDate": day, "ModDate": day}
    return dictionary({key: string(value) for key, value in said.items() if value})


def metadata(document: Document, meta: CardMeta, spoken: Sequence[str]) -> Code:
    """The same as XMP (ISO 16684-1), with the ``spoken`` languages. Gives the reference."""
    one = "<rdf:li xml:lang='x-default'>{}</rdf:li>"
    fields = [
        ("dc:title", "Alt", [one.format(escape(meta.title))]),
        ("dc:description", "Alt", [one.format(escape(meta.subject))]),
        ("dc:creator", "Seq", _listed([meta.author] if meta.author else [])),
        ("dc:language", "Bag", _listed(spoken)),
    ]
    lines = [
        f"<{field}><rdf:{kind}>{''.join(items)}</rdf:{kind}></{field}>"
        for field, kind, items in fields
        if items
    ]
    plain = {"pdf:Keywords": meta.keywords, "pdf:Producer": MAKER, "xmp:CreatorTool": MAKER}
    if meta.revised:
        plain |= {"xmp:CreateDate": meta.revised, "xmp:ModifyDate": meta.revised}
    lines += [f"<{field}>{escape(value)}</{field}>" for field, value in plain.items() if value]
    told = (
        "<?xpacket begin='\ufeff' id='W5M0MpCehiHzreSzNTczkc9d'?>\n"
        "<x:xmpmeta xmlns:x='adobe:ns:meta/'>"
        "<rdf:RDF xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'>\n"
        "<rdf:Description rdf:about='' xmlns:dc='http://purl.org/dc/elements/1.1/' "
        "xmlns:pdf='http://ns.adobe.com/pdf/1.3/' xmlns:xmp='http://ns.adobe.com/xap/1.0/'>\n"
        f"{chr(10).join(lines)}\n"
        "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end='r'?>"
    )
    about = {"Type": name("Metadata"), "Subtype": name("XML")}
    # left plain, so that programs which know no PDF find it
    return document.stream(told.encode("utf-8"), about, plain=True)


def _listed(values: Sequence[str]) -> list[str]:
    return [f"<rdf:li>{escape(value)}</rdf:li>" for value in values]
