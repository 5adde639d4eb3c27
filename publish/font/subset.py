#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Cuts the four faces of cards and sheets out of the fonts they come from.

usage: subset.py FOLDER-OF-SOURCE-SERIF FOLDER-OF-SOURCE-SANS, which are the
unpacked npm packages @expo-google-fonts/source-serif-4 and
@expo-google-fonts/source-sans-3, both 0.4.1. It needs fontTools.

What it does: keeps Latin, Greek and Cyrillic letters and the signs that
brewers use, keeps kerning and ligatures, makes the figures of the sans face
tabular without asking, drops hints, and renames the faces, since the licence
reserves the name "Source" for the unchanged fonts.
"""
import gzip
import io
import os
import sys
from fontTools import subset
from fontTools.ttLib import TTFont

RANGES = [(0x20, 0x7E), (0xA0, 0x24F), (0x2C6, 0x2DD), (0x300, 0x30C), (0x384, 0x3CE), (0x400, 0x45F), (0x490, 0x491), (0x1E80, 0x1E85),
          (0x1E9E, 0x1E9E), (0x1EA0, 0x1EF9), (0x2010, 0x2026), (0x2030, 0x2033), (0x2039, 0x203A), (0x2044, 0x2044), (0x2070, 0x208E),
          (0x20AC, 0x20AC), (0x2113, 0x2113), (0x2122, 0x2122), (0x2190, 0x2193), (0x2212, 0x2212), (0x221E, 0x221E), (0x2248, 0x2248),
          (0x2260, 0x2265), (0x25A0, 0x25A1), (0x25CB, 0x25CF), (0x2713, 0x2717)]

FACES = [
    (0, "400Regular/SourceSerif4_400Regular.ttf", "book-regular.ttf.gz", "Gyle Book", "Regular"),
    (0, "400Regular_Italic/SourceSerif4_400Regular_Italic.ttf", "book-italic.ttf.gz", "Gyle Book", "Italic"),
    (1, "400Regular/SourceSans3_400Regular.ttf", "figures-regular.ttf.gz", "Gyle Figures", "Regular"),
    (1, "600SemiBold/SourceSans3_600SemiBold.ttf", "figures-semibold.ttf.gz", "Gyle Figures", "SemiBold"),
]


def tabular(font):
    """Points the codes of the digits at their tabular forms."""
    forms = {}
    for record in font["GSUB"].table.FeatureList.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for table in font["GSUB"].table.LookupList.Lookup[index].SubTable:
                    forms.update(getattr(getattr(table, "ExtSubTable", table), "mapping", {}))
    for table in font["cmap"].tables:
        for digit in range(0x30, 0x3A):
            if digit in table.cmap:
                table.cmap[digit] = forms.get(table.cmap[digit], table.cmap[digit])


def rename(font, family, style):
    """Gives the face a name that isn't reserved."""
    full = family + " " + style
    names = {1: family, 2: style, 3: full + " (subset)", 4: full, 6: full.replace(" ", ""), 16: family, 17: style}
    for record in list(font["name"].names):
        if record.nameID in (1, 2, 3, 4, 6, 16, 17, 18, 21, 22, 25, 7, 8, 9, 10, 11, 12):
            font["name"].removeNames(nameID=record.nameID)
    for number, text in names.items():
        font["name"].setName(text, number, 3, 1, 0x409)


def cut(source, target, family, style):
    font = TTFont(source)
    if family == "Gyle Figures":
        tabular(font)
    options = subset.Options()
    options.layout_features = ["kern", "liga", "mark", "mkmk", "ccmp", "locl"]
    options.hinting = False
    options.name_IDs = ["*"]
    options.notdef_outline = True
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[c for low, high in RANGES for c in range(low, high + 1)])
    cutter.subset(font)
    rename(font, family, style)
    plain = io.BytesIO()
    font.save(plain)
    with open(target, "wb") as packed, gzip.GzipFile("", "wb", 9, packed, mtime=0) as z:
        z.write(plain.getvalue())


if __name__ == "__main__":
    here = os.path.dirname(os.path.abspath(__file__))
    for which, source, target, family, style in FACES:
        path = os.path.join(here, target)
        cut(os.path.join(sys.argv[1 + which], source), path, family, style)
        print(target, os.path.getsize(path))
