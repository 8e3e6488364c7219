"""Sentences in every language, printed and read back by tesseract, which knows no card."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import Run
from cards.diagnostics.diagnostic import Place
from cards.layout.pages import Page, Pages, TextItem
from cards.pdf.paint import paint
from cards.text.shape import Cluster, Shaped
from cards.text.wrap import Line, spans_of, width_of, words_of, wrap
from tests.copier import raster
from tests.test_copier import Reading, missing_reader, read_lines

SENTENCES = {
    "hi": """
        चावल और मूँग दाल को आधे घंटे तक भिगो दें।
        लौकी को छीलकर छोटे टुकड़ों में काट लें।
        कुकर में सब डालकर तीन सीटी आने तक पकाएँ।
        भाप निकलने के बाद ही ढक्कन खोलें।
        अच्छी तरह मसलकर एक छोटा चम्मच घी मिलाएँ।
        खाना ठंडा करके साफ़ कटोरी से खिलाएँ।
        दो घंटे के अंदर खिला दें, बचा हुआ न रखें।
        बच्चे के पास बैठें और धीरज से खिलाएँ।
    """,
    "mr": """
        तांदूळ आणि मुगाची डाळ अर्धा तास भिजत ठेवा.
        दुधी सोलून त्याचे लहान तुकडे करा.
        कुकरमध्ये सगळे घालून तीन शिट्ट्या होईपर्यंत शिजवा.
        वाफ गेल्यावरच झाकण उघडा.
        चांगले कुस्करून एक लहान चमचा तूप मिसळा.
        जेवण गार करून स्वच्छ वाटीने भरवा.
        दोन तासांच्या आत भरवा, उरलेले ठेवू नका.
        बाळाजवळ बसा आणि शांतपणे भरवा.
    """,
    "bn": """
        চাল আর মুগ ডাল আধ ঘণ্টা ভিজিয়ে রাখুন।
        লাউ ছাড়িয়ে ছোট ছোট টুকরো করে কাটুন।
        কুকারে সব দিয়ে তিনটি সিটি পর্যন্ত রান্না করুন।
        ভাপ বেরিয়ে গেলে তবেই ঢাকনা খুলুন।
        ভালো করে চটকে এক ছোট চামচ ঘি মেশান।
        খাবার ঠান্ডা করে পরিষ্কার বাটি থেকে খাওয়ান।
        দুই ঘণ্টার মধ্যে খাওয়ান, বাসি রাখবেন না।
        শিশুর পাশে বসুন এবং ধৈর্য ধরে খাওয়ান।
    """,
    "ta": """
        அரிசியையும் பருப்பையும் அரை மணி நேரம் ஊற வையுங்கள்.
        சுரைக்காயைத் தோல் சீவி சிறு துண்டுகளாக நறுக்குங்கள்.
        குக்கரில் எல்லாவற்றையும் போட்டு மூன்று விசில் வரை வேக விடுங்கள்.
        ஆவி முழுவதும் போன பிறகே மூடியைத் திறங்கள்.
        நன்றாக மசித்து ஒரு சிறு கரண்டி நெய் சேருங்கள்.
        உணவை ஆற வைத்து சுத்தமான கிண்ணத்தில் ஊட்டுங்கள்.
        இரண்டு மணி நேரத்துக்குள் கொடுங்கள், மீதியை வைக்காதீர்கள்.
        குழந்தையின் அருகில் அமர்ந்து பொறுமையாக ஊட்டுங்கள்.
    """,
    "te": """
        బియ్యం, పెసరపప్పు అరగంట పాటు నానబెట్టండి.
        సొరకాయ చెక్కు తీసి చిన్న ముక్కలుగా కోయండి.
        కుక్కర్లో అన్నీ వేసి మూడు విజిల్స్ వచ్చే వరకు ఉడికించండి.
        ఆవిరి అంతా పోయిన తర్వాతే మూత తీయండి.
        బాగా మెదిపి ఒక చిన్న చెంచా నెయ్యి కలపండి.
        అన్నం చల్లారాక శుభ్రమైన గిన్నెతో తినిపించండి.
        రెండు గంటలలోపు తినిపించండి, మిగిలినది ఉంచవద్దు.
        బిడ్డ పక్కన కూర్చుని ఓపికగా తినిపించండి.
    """,
    "ur": """
        چاول اور مونگ کی دال کو آدھے گھنٹے تک بھگو دیں۔
        لوکی کو چھیل کر چھوٹے ٹکڑوں میں کاٹ لیں۔
        ککر میں سب ڈال کر تین سیٹیاں آنے تک پکائیں۔
        بھاپ نکلنے کے بعد ہی ڈھکن کھولیں۔
        اچھی طرح مسل کر ایک چھوٹا چمچ گھی ملائیں۔
        کھانا ٹھنڈا کر کے صاف کٹوری سے کھلائیں۔
        دو گھنٹے کے اندر کھلا دیں، بچا ہوا نہ رکھیں۔
        بچے کے پاس بیٹھیں اور صبر سے کھلائیں۔
    """,
}
"""Sentences of our own, as steps and cautions say them."""

SIZE = 12.0
"""Points, as the body of a card."""


def page_of(language: str, kit: Kit, run: Run, *, bare: bool = False) -> Pages:
    """The sentences one below the other; ``bare`` sets the characters' own glyphs in a row."""
    items: list[TextItem] = []
    y = 20.0
    for text in SENTENCES[language].strip().splitlines():
        line = wrap(words_of(spans_of(text.strip()), kit.book, language), SIZE, 600)[0]
        if bare:
            words = tuple(
                replace(word, pieces=tuple(unshaped(piece) for piece in word.pieces))
                for word in line.words
            )
            line = Line(words, width_of(words, SIZE))
        items.append(TextItem(30, y + 16, SIZE, line, language, "body", Place(""), y, y + 20))
        y += 30
    assert run.pages is not None
    return Pages(800, 300, 0, run.pages.meta, (Page("front", tuple(items)),))


def unshaped(piece: Shaped) -> Shaped:
    """The piece without shaping."""
    font = piece.face.shaper
    found: list[Cluster] = []
    for character in piece.text:
        glyph = font.get_nominal_glyph(ord(character)) or 0
        advance = font.get_glyph_h_advance(glyph)
        found.append(Cluster(character, ((glyph, 0, 0),), advance))
    return Shaped(piece.face, tuple(found), piece.level)


def read(language: str, pages: Pages, folder: Path) -> Reading:
    """What tesseract makes of it; signs that nobody sees are left out."""
    if missing_reader(language):
        pytest.skip(missing_reader(language))
    found = read_lines([raster(paint(pages), 0)], pages, language, folder)
    return Reading(
        tuple((said, "".join(c for c in got if not is_joiner(c))) for said, got in found.lines)
    )


def is_joiner(character: str) -> bool:
    """Tesseract's Tamil model puts a joiner after each dot."""
    return character in "\u200c\u200d"


LEAST = 0.98
"""Characters read right."""


@pytest.mark.parametrize("language", SENTENCES)
def test_sentences_are_read(language: str, kit: Kit, demos: dict[str, Run], tmp_path: Path) -> None:
    shown = read(language, page_of(language, kit, next(iter(demos.values()))), tmp_path)
    assert len(shown.lines) == 8
    assert shown.accuracy >= LEAST, [line for line in shown.lines if line[0] != line[1]]


@pytest.mark.parametrize("language", SENTENCES)
def test_bare_characters_are_read_worse(
    language: str, kit: Kit, demos: dict[str, Run], tmp_path: Path
) -> None:
    """The control. That it is read at all shows that only test_shaping.py judges the shapes."""
    run = next(iter(demos.values()))
    bare = read(language, page_of(language, kit, run, bare=True), tmp_path).accuracy
    assert bare < read(language, page_of(language, kit, run), tmp_path).accuracy - 0.02
