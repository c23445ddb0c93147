"""The program's own typeface, with only the letters that a file uses, as a font of that PDF."""

from collections.abc import Iterable
from functools import cached_property
from io import BytesIO
from pathlib import Path

import pydyf
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

TOP = Path(__file__).resolve().parents[4]
FACE = TOP / "catalogue/static/catalogue/vendor/vollkorn/Vollkorn-Regular.woff2"


class Typeface:
    """Vollkorn for one document. `texts` is all that will be set: what the face lacks becomes a box."""

    def __init__(self, texts: Iterable[str]) -> None:
        self.letters = sorted(set("".join(texts)) | {" "})

    @cached_property
    def _font(self) -> TTFont:
        font = TTFont(FACE)
        options = Options(layout_features=[], hinting=False, notdef_outline=True, glyph_names=False)
        subsetter = Subsetter(options)
        subsetter.populate(text="".join(self.letters))
        subsetter.subset(font)
        font.flavor = None
        return font

    @cached_property
    def _glyphs(self) -> dict[str, int]:
        named = self._font.getBestCmap()
        return {
            letter: self._font.getGlyphID(named[ord(letter)]) if ord(letter) in named else 0
            for letter in self.letters
        }

    @cached_property
    def _advances(self) -> list[float]:
        """By glyph, in thousandths of the size."""
        per_em, widths = self._font["head"].unitsPerEm, self._font["hmtx"]
        return [1000 * widths[name][0] / per_em for name in self._font.getGlyphOrder()]

    def width_of(self, text: str, size: float) -> float:
        return sum(self._advances[self._glyphs[letter]] for letter in text) * size / 1000

    def glyphs_of(self, text: str) -> str:
        """As PDF's show operator takes it: two bytes for each glyph."""
        return "".join(f"{self._glyphs[letter]:04x}" for letter in text)

    def add_to(self, pdf: pydyf.PDF) -> bytes:
        """Embed it: ISO 32000-1:2008, 9.7 (composite fonts). Returns the reference to its dictionary."""
        file = BytesIO()
        self._font.save(file)
        head, os2, hhea = self._font["head"], self._font["OS/2"], self._font["hhea"]
        em = 1000 / head.unitsPerEm
        box = [round(em * value) for value in (head.xMin, head.yMin, head.xMax, head.yMax)]
        data = pydyf.Stream([file.getvalue()], {"Length1": len(file.getvalue())}, compress=True)
        descriptor = pydyf.Dictionary({"Type": "/FontDescriptor", "FontName": "/Vollkorn", "Flags": 4,
            "FontBBox": pydyf.Array(box),
            "ItalicAngle": 0, "Ascent": round(em * hhea.ascent), "Descent": round(em * hhea.descent),
            "CapHeight": round(em * getattr(os2, "sCapHeight", 700)), "StemV": 80})  # fmt: skip
        unicode_map = pydyf.Stream([_UNICODE_MAP.format(count=len(pairs), pairs="\n".join(pairs))
            for pairs in [[f"<{glyph:04x}> <{letter.encode('utf-16-be').hex()}>"
                           for letter, glyph in self._glyphs.items() if glyph]]], compress=True)  # fmt: skip
        for one in (data, descriptor, unicode_map):
            pdf.add_object(one)
        descriptor["FontFile2"] = data.reference
        cid = pydyf.Dictionary({"Type": "/Font", "Subtype": "/CIDFontType2", "BaseFont": "/Vollkorn",
            "CIDSystemInfo": pydyf.Dictionary({"Registry": pydyf.String("Adobe"),
                "Ordering": pydyf.String("Identity"), "Supplement": 0}),
            "FontDescriptor": descriptor.reference, "CIDToGIDMap": "/Identity",
            "W": pydyf.Array([0, pydyf.Array([round(width, 2) for width in self._advances])])})  # fmt: skip
        pdf.add_object(cid)
        font = pydyf.Dictionary({"Type": "/Font", "Subtype": "/Type0", "BaseFont": "/Vollkorn",
            "Encoding": "/Identity-H", "DescendantFonts": pydyf.Array([cid.reference]),
            "ToUnicode": unicode_map.reference})  # fmt: skip
        pdf.add_object(font)
        return font.reference


# Which letter each glyph is, so that text can be searched and copied: ISO 32000-1:2008, 9.10.3.
_UNICODE_MAP = """/CIDInit /ProcSet findresource begin 12 dict begin begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def /CMapType 2 def
1 begincodespacerange <0000> <ffff> endcodespacerange
{count} beginbfchar
{pairs}
endbfchar
endcmap CMapName currentdict /CMap defineresource pop end end"""
