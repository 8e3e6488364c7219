"""The structure of the files, read by programs that did not write it."""

from __future__ import annotations

import io
import itertools
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest
import zxingcpp
from pypdf.generic import ContentStream

from cards.batch.kit import Kit
from cards.batch.stages import Run, run_file, sheet_of
from cards.layout.pages import Pages, Placed, QrItem, Tag, TextItem
from cards.pdf.paint import paint
from cards.source.workspace import Workspace
from tests.conftest import DEMO_FILES, PLAIN, ROOT, Bench
from tests.test_layouts import LAYOUTS, kit_for

DEMOS = [p.stem for p in DEMO_FILES]

PAINTS = {"S", "s", "f", "f*", "B", "b", "F", "Tj", "TJ", "'", '"', "Do", "sh", "EI"}
"""Operators that leave ink (ISO 32000-1, Annex A)."""

DEVANAGARI = re.compile("[\u0900-\u097f]")


@dataclass
class Node:
    """An element as read from the file: kind, what it says, marks as (page, MCID), elements."""

    kind: str
    alt: str
    language: str
    entry: Any
    number: int
    inside: list[Node | tuple[int, int]]

    def walk(self) -> Iterator[Node]:
        yield self
        for inner in self.inside:
            if isinstance(inner, Node):
                yield from inner.walk()

    def nodes(self) -> list[Node]:
        return [inner for inner in self.inside if isinstance(inner, Node)]

    def marks(self) -> list[tuple[int, int]]:
        """Marks of this element and all in it, in reading order."""
        found: list[tuple[int, int]] = []
        for inner in self.inside:
            found += inner.marks() if isinstance(inner, Node) else [inner]
        return found


class Tagged:
    """A file's tree, and the text and tag of each mark, by pypdf."""

    def __init__(self, data: bytes) -> None:
        self.reader = pypdf.PdfReader(io.BytesIO(data), strict=True)
        self.catalog = self.reader.root_object
        self.page_of = {
            page.indirect_reference.idnum: number  # type: ignore[union-attr]
            for number, page in enumerate(self.reader.pages)
        }
        self.root = self._node(self.catalog["/StructTreeRoot"].raw_get("/K"), -1)
        self.kinds: dict[tuple[int, int], str] = {}
        self.texts: dict[tuple[int, int], str] = {}
        self.bare: list[str] = []
        for number, page in enumerate(self.reader.pages):
            self._read(number, page)

    def _node(self, reference: Any, page: int) -> Node:
        entry = reference.get_object()
        if "/Pg" in entry:
            page = self.page_of[entry.raw_get("/Pg").idnum]
        kids = entry["/K"]
        inside: list[Node | tuple[int, int]] = []
        for kid in kids if isinstance(kids, list) else [entry.raw_get("/K")]:
            held = kid.get_object()
            if isinstance(held, int):
                inside.append((page, held))
            elif held.get("/Type") == "/MCR":
                inside.append((self.page_of[held.raw_get("/Pg").idnum], held["/MCID"]))
            else:
                assert held.raw_get("/P").idnum == reference.idnum
                inside.append(self._node(kid, page))
        return Node(
            entry["/S"][1:],
            entry.get("/Alt", ""),
            entry.get("/Lang", ""),
            entry,
            reference.idnum,
            inside,
        )

    def _read(self, number: int, page: Any) -> None:
        maps = {name: to_text(font) for name, font in page["/Resources"]["/Font"].items()}
        open_marks: list[tuple[int, int] | None] = []
        font: dict[str, str] = {}
        for operands, operator in ContentStream(page["/Contents"], self.reader).operations:
            name = operator.decode()
            if name == "BDC":
                mark = (number, operands[1]["/MCID"])
                assert mark not in self.kinds
                self.kinds[mark] = operands[0][1:]
                self.texts[mark] = ""
                open_marks.append(mark)
            elif name == "BMC":
                assert operands[0] == "/Artifact"
                open_marks.append(None)
            elif name == "EMC":
                open_marks.pop()
            elif name == "Tf":
                font = maps[operands[0]]
            elif name in PAINTS and len(open_marks) != 1:
                self.bare.append(name)
            elif name == "Tj" and open_marks[-1] is not None:
                codes = operands[0].original_bytes.hex()
                texts = [font[codes[n : n + 4]] for n in range(0, len(codes), 4)]
                self.texts[open_marks[-1]] += "".join(texts)
        assert open_marks == []

    def text(self, node: Node) -> str:
        return "".join(self.texts[mark] for mark in node.marks())

    def of_kind(self, *kinds: str) -> list[Node]:
        return [node for node in self.root.walk() if node.kind in kinds]


def to_text(font: Any) -> dict[str, str]:
    table = font["/ToUnicode"].get_data().decode("ascii")
    return {
        code.lower(): bytes.fromhex(text).decode("utf-16-be")
        for code, text in re.findall(r"<([0-9A-F]{4})> <([0-9A-F]+)>", table)
    }


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def read_items(pages: Pages) -> list[Placed]:
    """What is read: all but what the layout set aside as seen only."""
    return [
        i for p in pages.pages for i in p.items if not any(t.kind == "Artifact" for t in i.tags)
    ]


def words(pages: Pages) -> str:
    return squeezed("".join(i.line.text for i in read_items(pages) if isinstance(i, TextItem)))


@pytest.fixture(scope="module")
def files(
    demos: dict[str, Run], pdfs: dict[str, bytes], kit: Kit
) -> dict[str, tuple[Pages, bytes]]:
    """Cards by name, and the trainer's sheets beside them."""
    found: dict[str, tuple[Pages, bytes]] = {}
    for name, run in demos.items():
        sheet = sheet_of(run, kit)
        assert run.pages is not None
        assert sheet is not None
        found[name] = run.pages, pdfs[name]
        found[f"{name}-sheet"] = sheet, paint(sheet)
    return found


@pytest.fixture(scope="module")
def read(files: dict[str, tuple[Pages, bytes]]) -> dict[str, Tagged]:
    return {name: Tagged(data) for name, (_, data) in files.items()}


BOTH = [name for demo in DEMOS for name in (demo, f"{demo}-sheet")]


@pytest.mark.parametrize("name", BOTH)
def test_the_file_says_that_it_is_tagged(name: str, read: dict[str, Tagged]) -> None:
    catalog = read[name].catalog
    assert catalog["/MarkInfo"]["/Marked"].value is True
    assert catalog["/Lang"] == "en"
    assert catalog["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert read[name].root.kind == "Document"
    for number, page in enumerate(read[name].reader.pages):
        assert page["/StructParents"] == number
        assert page["/Tabs"] == "/S"


@pytest.mark.parametrize("name", BOTH)
def test_marks_tree_and_parent_tree_agree(name: str, read: dict[str, Tagged]) -> None:
    """Each mark on a page stands once in the tree, and its parent there is the one listed."""
    file = read[name]
    assert file.bare == []
    assert len(file.root.marks()) == len(set(file.root.marks()))
    assert set(file.root.marks()) == set(file.kinds)
    numbers = file.catalog["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    listed = {
        (numbers[at], mcid): parent.idnum
        for at in range(0, len(numbers), 2)
        for mcid, parent in enumerate(numbers[at + 1].get_object())
    }
    own = {
        mark: node.number
        for node in file.root.walk()
        for mark in node.inside
        if isinstance(mark, tuple)
    }
    assert listed == own
    kinds = {node.number: node.kind for node in file.root.walk()}
    assert {mark: kinds[number] for mark, number in own.items()} == file.kinds


@pytest.mark.parametrize("name", BOTH)
def test_the_tree_is_read_as_the_pages_are(
    name: str, read: dict[str, Tagged], files: dict[str, tuple[Pages, bytes]]
) -> None:
    file, pages = read[name], files[name][0]
    assert file.root.marks() == sorted(file.root.marks())
    assert squeezed(file.text(file.root)) == words(pages)


@pytest.mark.parametrize("name", BOTH)
def test_every_figure_is_said_in_words(name: str, read: dict[str, Tagged]) -> None:
    figures = read[name].of_kind("Figure")
    assert figures
    for figure in figures:
        assert figure.alt.strip(), read[name].text(figure)
        assert "*" not in figure.alt
        assert figure.nodes() == []


@pytest.mark.parametrize("name", BOTH)
def test_figures_and_tables_say_where_they_are(name: str, read: dict[str, Tagged]) -> None:
    """ISO 32000-1, table 344: a box for what stands whole on one page."""
    for node in read[name].of_kind("Figure", "Table"):
        attributes = node.entry["/A"]
        held = attributes if isinstance(attributes, list) else [attributes]
        boxes = [a.get_object()["/BBox"] for a in held if a.get_object()["/O"] == "/Layout"]
        left, bottom, right, top = (float(v) for v in boxes[0])
        page = read[name].reader.pages[node.marks()[0][0]].mediabox
        assert 0 < left < right < float(page.right)
        assert 0 < bottom < top < float(page.top)


@pytest.mark.parametrize("name", BOTH)
def test_lists_and_tables_are_whole(name: str, read: dict[str, Tagged]) -> None:
    file = read[name]
    for node in file.of_kind("L"):
        assert {inner.kind for inner in node.nodes()} == {"LI"}
        assert node.entry["/A"]["/ListNumbering"] in ("/Decimal", "/Disc")
    for node in file.of_kind("LI"):
        assert [inner.kind for inner in node.inside if isinstance(inner, Node)] == ["Lbl", "LBody"]
        assert len(node.inside) == 2
    for table in file.of_kind("Table"):
        rows = table.nodes()
        assert {row.kind for row in rows} == {"TR"}
        assert len({len(row.inside) for row in rows}) == 1
        assert {cell.kind for cell in rows[0].nodes()} == {"TH"}
        assert {cell.entry["/A"]["/Scope"] for cell in rows[0].nodes()} == {"/Column"}
        for row in rows[1:]:
            cells = row.nodes()
            assert {cell.kind for cell in cells} <= {"TH", "TD"}
            assert cells[-1].kind == "TD"
            assert all(c.entry["/A"]["/Scope"] == "/Row" for c in cells if c.kind == "TH")
    for node in file.of_kind("Document", "Sect", "Aside", "L", "LI", "Table", "TR"):
        assert len(node.nodes()) == len(node.inside), node.kind
    assert dict(file.catalog["/StructTreeRoot"]["/RoleMap"]) == {"/Aside": "/Sect"}


@pytest.mark.parametrize("name", BOTH)
def test_headings_go_down_a_level_at_a_time(name: str, read: dict[str, Tagged]) -> None:
    levels = [int(node.kind[1]) for node in read[name].of_kind("H1", "H2", "H3", "H4")]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))


@pytest.mark.parametrize("demo", DEMOS)
def test_a_card_is_built_of_what_is_on_it(
    demo: str, read: dict[str, Tagged], demos: dict[str, Run]
) -> None:
    file, card = read[demo], demos[demo].card
    assert card is not None
    front, back = file.root.nodes()
    assert front.kind == back.kind == "Sect"
    for side in (front, back):
        title = side.nodes()[0]
        assert title.kind == "H1"
        assert squeezed(file.text(title)) == squeezed("".join(t.text for t in card.heading.title))
    needs = [n for n in front.nodes() if n.kind == "L"]
    assert [len(n.inside) for n in needs] == [len(s.rows) for s in card.needs.sections]
    steps = [n for n in back.nodes() if n.kind == "L"]
    assert [len(n.inside) for n in steps] == [len(s.rows) for s in card.steps.sections]
    labels = [file.text(row.nodes()[0]).strip() for part in steps for row in part.nodes()]
    assert labels == [str(n + 1) for n in range(len(labels))]
    parts = [s for s in (*card.needs.sections, *card.steps.sections) if s.heading]
    assert len(file.of_kind("H2")) == len(parts)
    table = file.of_kind("Table")[0]
    ages = [squeezed(file.text(cell)) for cell in table.nodes()[0].nodes()]
    assert len(ages) == len(card.portions.columns)
    for told, column in zip(ages, card.portions.columns, strict=True):
        assert told.startswith(squeezed(column.ages))
    box = [n for n in back.nodes() if n.kind == "Aside"]
    assert len(box) == 1
    own = [f.alt for f in box[0].walk() if f.kind == "Figure"][: len(card.safety.own)]
    assert own == [m.said[0].text for m in card.safety.own]
    code = file.of_kind("Figure")[-1]
    assert code.alt == f"QR code: {card.foot.qr}"


@pytest.mark.parametrize("name", DEMOS)
def test_what_is_hindi_is_told_to_be(name: str, read: dict[str, Tagged]) -> None:
    file = read[name]
    spans = file.of_kind("Span")
    assert {span.language for span in spans} == {"hi"}
    for span in spans:
        assert DEVANAGARI.search(file.text(span)), file.text(span)
    hindi = {mark for span in spans for mark in span.marks()}
    others = [text for mark, text in file.texts.items() if mark not in hindi]
    assert [text for text in others if DEVANAGARI.search(text)] == []


def test_the_documents_own_language_needs_no_telling(demos: dict[str, Run]) -> None:
    """The same pages in a programme whose first language is Hindi: English is the other one."""
    pages = demos[DEMOS[0]].pages
    assert pages is not None
    file = Tagged(paint(replace(pages, meta=replace(pages.meta, language="hi"))))
    assert file.catalog["/Lang"] == "hi"
    assert {span.language for span in file.of_kind("Span")} == {"en"}
    assert file.reader.xmp_metadata is not None
    assert file.reader.xmp_metadata.dc_language == ["hi", "en"]


def test_charts_tell_their_figures(read: dict[str, Tagged], demos: dict[str, Run]) -> None:
    """Every number and food that is set in a chart stands in the words for it."""
    for demo in DEMOS:
        file = read[f"{demo}-sheet"]
        # the code at the foot of each side is a figure too
        charts = [f for f in file.of_kind("Figure") if "?d=" not in f.alt]
        assert len(charts) == 3
        for chart in charts:
            told = set(re.findall(r"\d+(?:\.\d+)?", chart.alt))
            shown = set(re.findall(r"\d+(?:\.\d+)?", file.text(chart)))
            assert shown - told == set(), chart.alt
        analysis = demos[demo].analysis
        assert analysis is not None
        if analysis.energy_density is not None:
            assert f"This dish: {analysis.energy_density:.2f} kcal per g." in charts[1].alt


@pytest.mark.parametrize("languages", [("en", "hi"), ("hi",)])
@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_layout_is_read_in_order(
    layout: str, languages: tuple[str, ...], workspace: Workspace
) -> None:
    """Columns are read one after the other; boxes grow with the page; one H1 a side."""
    kit = kit_for(workspace, layout, languages)
    run = run_file(ROOT / "recipes" / "pumpkin-rice-moong.yaml", workspace, kit)
    assert run.pages is not None
    file = Tagged(paint(run.pages, run.sources))
    assert file.bare == []
    assert file.catalog["/Lang"] == languages[0]
    assert squeezed(file.text(file.root)) == words(run.pages)
    assert [n.nodes()[0].kind for n in file.root.nodes()] == ["H1"] * len(run.pages.pages)
    assert faults_of(run.pages) == []
    for node in file.of_kind("Figure", "Table"):
        attributes = node.entry["/A"]
        box = (attributes[-1] if isinstance(attributes, list) else attributes).get_object()["/BBox"]
        number = node.marks()[0][0]
        page = file.reader.pages[number].mediabox
        assert 0 < float(box[0]) < float(box[2]) < float(page.right)
        assert 0 < float(box[1]) < float(box[3]) < float(page.top)


def test_what_is_drawn_small_and_printed_large_grows_whole(demos: dict[str, Run]) -> None:
    """Page, pictures and the boxes of the tree grow by the same; pdfium finds the code there."""
    pages = demos["pumpkin-rice-moong"].pages
    assert pages is not None
    data = paint(replace(pages, magnify=2.5))
    file = Tagged(data)
    printed = (2.5 * pages.width, 2.5 * pages.height)
    assert [float(v) for v in file.reader.pages[1].mediabox[2:]] == pytest.approx(printed, abs=0.01)
    code = next(n for n in file.of_kind("Figure") if n.alt.startswith("QR code"))
    box = [float(v) for v in code.entry["/A"]["/BBox"]]
    item = next(i for p in pages.pages for i in p.items if isinstance(i, QrItem))
    assert box[2] - box[0] == pytest.approx(2.5 * item.side, abs=0.2)
    document = pypdfium2.PdfDocument(data)
    page = document[1].render(scale=1, grayscale=True).to_pil()
    document.close()
    left, top, right, bottom = box[0], printed[1] - box[3], box[2], printed[1] - box[1]
    found = zxingcpp.read_barcodes(page.crop((left, top, right, bottom)))
    assert [one.text for one in found] == [item.payload]


def faults_of(pages: Pages) -> list[str]:
    """What of the above a file fails by."""
    file = Tagged(paint(pages))
    found = ["alt" for figure in file.of_kind("Figure") if not figure.alt]
    found += ["order"] * (squeezed(file.text(file.root)) != words(pages))
    found += [
        "list" for li in file.of_kind("LI") if [n.kind for n in li.nodes()] != ["Lbl", "LBody"]
    ]
    found += [
        "table"
        for table in file.of_kind("Table")
        if len({len(row.inside) for row in table.nodes()}) != 1
    ]
    return sorted(set(found))


def test_the_checks_can_fail(demos: dict[str, Run]) -> None:
    pages = demos["pumpkin-rice-moong"].pages
    assert pages is not None
    assert faults_of(pages) == []
    front, back = pages.pages

    def spoilt(keep: Any) -> Pages:
        return replace(pages, pages=(replace(front, items=tuple(map(keep, front.items))), back))

    def without(kind: str, number: int | None = None) -> Any:
        def change(item: Placed) -> Placed:
            kept = [t for t in item.tags if t.kind != kind or number not in (None, t.number)]
            return replace(item, tags=tuple(kept))

        return change

    assert "list" in faults_of(spoilt(without("LBody")))
    assert "table" in faults_of(spoilt(without("TD", 1)))
    silent = spoilt(lambda i: replace(i, icon=replace(i.icon, alt="")) if hasattr(i, "icon") else i)
    assert faults_of(silent) == ["alt"]


def test_what_has_no_tags_is_read_all_the_same(demos: dict[str, Run]) -> None:
    """A new block without tags gives paragraphs and figures, and loses nothing."""
    pages = demos["pumpkin-rice-moong"].pages
    assert pages is not None
    bare = replace(
        pages,
        pages=tuple(
            replace(page, items=tuple(replace(item, tags=()) for item in page.items))
            for page in pages.pages
        ),
    )
    file = Tagged(paint(bare))
    assert file.bare == []
    assert squeezed(file.text(file.root)) == words(pages)
    assert {node.kind for node in file.root.nodes()} == {"P", "Figure"}


def test_an_artifact_is_not_read(demos: dict[str, Run], kit: Kit) -> None:
    """The foot of the trainer's sheet stands on each page and in no element."""
    sheet = sheet_of(demos[DEMOS[0]], kit)
    assert sheet is not None
    file = Tagged(paint(sheet))
    assert f"1 of {len(sheet.pages)}" in file.reader.pages[0].extract_text()
    assert f"1 of {len(sheet.pages)}" not in file.text(file.root)


def test_icons_of_one_amount_are_one_figure(read: dict[str, Tagged]) -> None:
    """Six spoons are said once, as six; a clock and a flame are two figures."""
    file = read["pumpkin-rice-moong"]
    first = file.of_kind("L")[0].nodes()[0]
    assert [figure.alt for figure in first.nodes()[0].nodes()] == ["6 big spoons rice, washed"]
    cook = file.of_kind("L")[1].nodes()[1].nodes()[1]
    assert [f.alt for f in cook.nodes() if f.kind == "Figure"][1:] == [
        "medium flame",
        "for 4 whistles",
    ]


def command(*words: str) -> str:
    if shutil.which(words[0]) is None:
        pytest.skip(f"{words[0]} is not installed")
    done = subprocess.run(words, capture_output=True, timeout=60)
    assert done.returncode == 0, done.stdout.decode() + done.stderr.decode()
    assert done.stderr == b""
    return done.stdout.decode()


@pytest.mark.parametrize("name", BOTH)
def test_qpdf_finds_no_fault(
    name: str, files: dict[str, tuple[Pages, bytes]], tmp_path: Path
) -> None:
    path = tmp_path / "card.pdf"
    path.write_bytes(files[name][1])
    assert "No syntax or stream encoding errors" in command("qpdf", "--check", str(path))


@pytest.mark.parametrize("name", BOTH)
def test_poppler_reads_the_structure_in_order(
    name: str, files: dict[str, tuple[Pages, bytes]], tmp_path: Path
) -> None:
    path = tmp_path / "card.pdf"
    path.write_bytes(files[name][1])
    told = command("pdfinfo", "-struct-text", str(path))
    read = re.findall(r'^ *"(.*)"$', told, re.M)
    assert squeezed("".join(read)) == words(files[name][0])


@pytest.mark.parametrize("language", [0, 1])
@pytest.mark.parametrize("demo", DEMOS)
def test_poppler_reads_title_needs_portions_steps_safety(
    demo: str, language: int, demos: dict[str, Run], pdfs: dict[str, bytes], tmp_path: Path
) -> None:
    path = tmp_path / "card.pdf"
    path.write_bytes(pdfs[demo])
    told = " ".join(command("pdfinfo", "-struct-text", str(path)).split())
    card = demos[demo].card
    assert card is not None
    said = (
        card.heading.title,
        card.needs.sections[0].rows[0].said,
        card.portions.columns[0].texture.said,
        card.portions.columns[0].meals,
        card.portions.breast_milk.said,
        card.steps.sections[0].rows[0].said,
        card.safety.own[0].said if card.safety.own else card.safety.general[0].said,
        card.foot.guidance.said,
    )
    places: list[int] = []
    for texts in said:
        text = texts[language].text.replace("*", "")
        assert text in told
        places.append(told.index(text, places[-1] + 1 if places else 0))
    assert places == sorted(places)


@pytest.mark.parametrize("demo", DEMOS)
def test_a_card_holds_its_own_source(demo: str, pdfs: dict[str, bytes]) -> None:
    """The recipe and the side files of the languages printed come back byte for byte."""
    named = [ROOT / "recipes" / f"{demo}{end}" for end in (".yaml", ".en.yaml", ".hi.yaml")]
    beside = [path for path in named if path.is_file()]
    reader = pypdf.PdfReader(io.BytesIO(pdfs[demo]))
    held = {file.name: file for file in reader.attachment_list}
    assert sorted(held) == sorted(f"recipes/{path.name}" for path in beside)
    for path in beside:
        file = held[f"recipes/{path.name}"]
        assert file.content == path.read_bytes()
        assert file.alternative_name == path.name
        assert file.subtype == "/application/yaml"
        assert file.size == len(path.read_bytes())
        relation: Any = file.associated_file_relationship
        assert relation == "/Source"
    assert len(reader.root_object["/AF"]) == len(beside)


def test_a_side_file_is_among_them(pdfs: dict[str, bytes]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdfs["methi-roti-curd"]))
    assert "recipes/methi-roti-curd.hi.yaml" in reader.attachments


def test_the_sheet_holds_no_files(files: dict[str, tuple[Pages, bytes]]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(files[f"{DEMOS[0]}-sheet"][1]))
    assert dict(reader.attachments) == {}


@pytest.mark.parametrize("demo", DEMOS)
def test_bookmarks_lead_to_the_sides(
    demo: str, read: dict[str, Tagged], demos: dict[str, Run]
) -> None:
    reader, run = read[demo].reader, demos[demo]
    assert run.pages is not None
    sides = [mark for mark in reader.outline if not isinstance(mark, list)]
    title = run.pages.meta.title
    assert [mark.title for mark in sides] == [title, f"{title} (2)"]
    assert [reader.get_destination_page_number(mark) for mark in sides] == [0, 1]


def test_bookmarks_of_the_sheet_are_its_questions(read: dict[str, Tagged]) -> None:
    file = read[f"{DEMOS[0]}-sheet"]
    outline = file.reader.outline
    assert len(outline) == 2
    questions = [mark.title for mark in outline[1] if not isinstance(mark, list)]
    assert questions == [file.text(node).strip() for node in file.of_kind("H2")]
    pages = [file.reader.get_destination_page_number(mark) for mark in outline[1]]  # type: ignore[arg-type,union-attr]
    assert pages == [node.marks()[0][0] for node in file.of_kind("H2")]


@pytest.mark.parametrize("demo", DEMOS)
def test_what_the_file_says_of_itself_it_says_twice_the_same(
    demo: str, pdfs: dict[str, bytes], demos: dict[str, Run]
) -> None:
    reader, run = pypdf.PdfReader(io.BytesIO(pdfs[demo])), demos[demo]
    info, xmp, recipe = reader.metadata, reader.xmp_metadata, run.recipe
    assert info is not None
    assert xmp is not None
    assert recipe is not None
    assert xmp.dc_title == {"x-default": info.title}
    assert xmp.dc_creator == [info.author]
    assert xmp.dc_description == {"x-default": info.subject}
    assert xmp.pdf_keywords == info.keywords == f"{recipe.id}, {recipe.digest}"
    assert xmp.dc_language == ["en", "hi"]
    assert info.subject == f"{recipe.path}, version {recipe.version}, digest {recipe.digest}"
    assert re.fullmatch(r"recipe-cards \d+\.\d+\.\d+", info.creator or "")
    assert info.creator == xmp.xmp_creator_tool
    assert info.creation_date is not None
    assert info.creation_date.date().isoformat() == recipe.revised
    assert xmp.xmp_modify_date is not None
    assert xmp.xmp_modify_date.date().isoformat() == recipe.revised
    # nobody has shown that the files conform, so they do not say it
    assert b"pdfuaid" not in pdfs[demo]


def test_a_recipe_without_a_date_gives_a_file_without_one(bench: Bench) -> None:
    run = bench.run(PLAIN)
    assert run.pages is not None
    reader = pypdf.PdfReader(io.BytesIO(paint(run.pages, run.sources)))
    assert reader.metadata is not None
    assert reader.metadata.creation_date is None
    assert reader.metadata.modification_date is None
    assert reader.xmp_metadata is not None
    assert reader.xmp_metadata.xmp_modify_date is None


def test_marks_of_markup_in_a_title_stay_text(bench: Bench) -> None:
    run = bench.run(PLAIN.replace("Soft rice", "Rice & <dal> (soft\\\\)"))
    assert run.pages is not None
    reader = pypdf.PdfReader(io.BytesIO(paint(run.pages, run.sources)))
    assert reader.metadata is not None
    assert reader.metadata.title == run.pages.meta.title
    assert "& <dal> (soft" in run.pages.meta.title
    assert reader.xmp_metadata is not None
    assert reader.xmp_metadata.dc_title == {"x-default": run.pages.meta.title}


def test_files_of_different_cards_have_different_ids(pdfs: dict[str, bytes]) -> None:
    ids = [pypdf.PdfReader(io.BytesIO(pdfs[demo])).trailer["/ID"][0] for demo in DEMOS]
    assert len({bytes(i.original_bytes) for i in ids}) == len(DEMOS)


def test_many_pages_fill_many_object_streams(demos: dict[str, Run]) -> None:
    """A combined file of all cards is read whole: the tree, and each page's key in it."""
    sides = tuple(
        replace(
            page,
            items=tuple(
                replace(item, tags=(Tag("Sect", 2 * number + side), *item.tags[1:]))
                for item in page.items
            ),
        )
        for number, run in enumerate(demos.values())
        if run.pages is not None
        for side, page in enumerate(run.pages.pages)
    )
    first = demos[DEMOS[0]].pages
    assert first is not None
    whole = replace(first, pages=sides)
    file = Tagged(paint(whole))
    assert len(file.reader.pages) == 2 * len(DEMOS)
    assert len(file.root.nodes()) == 2 * len(DEMOS)
    assert squeezed(file.text(file.root)) == words(whole)
    assert sum(isinstance(i, QrItem) for i in read_items(whole)) == len(DEMOS)
    titles = [mark.title for mark in file.reader.outline if not isinstance(mark, list)]
    assert len(titles) == len(set(titles)) == 2 * len(DEMOS)
