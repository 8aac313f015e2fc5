"""Draws the pages that `cargo bench --bench pages -- --dump DIR` left in DIR, with reportlab, in as many processes as there are
cores, and says how long that took: `reportlab_pages.py DIR [OUT]`. One document a size, streams deflated, fonts subset."""

import io
import json
import multiprocessing
import os
import sys
import time

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen import canvas

FACES = ["TR", "TB", "TC", "TCB", "TM"]


def shape(page, steps, fill, pen):
    path = page.beginPath()
    for step in steps:
        if step[0] == "m":
            path.moveTo(step[1], step[2])
        elif step[0] == "l":
            path.lineTo(step[1], step[2])
        elif step[0] == "c":
            path.curveTo(*step[1:])
        else:
            path.close()
    if fill is not None:
        page.setFillGray(fill)
    if pen is not None:
        page.setLineWidth(pen[0])
        page.setStrokeGray(pen[1])
        page.setDash(pen[2], 0)
    page.drawPath(path, stroke=int(pen is not None), fill=int(fill is not None), fillMode=0)


def text(page, face, size, grey, turn, x, y, letters):
    page.setFillGray(grey)
    page.setFont(face, size)
    if turn:
        page.saveState()
        page.translate(x, y)
        page.rotate(turn)
        page.drawString(0, 0, letters)
        page.restoreState()
    else:
        page.drawString(x, y, letters)


def document(pages):
    out = io.BytesIO()
    whole = canvas.Canvas(out, pageCompression=1)
    for page in pages:
        whole.setPageSize((page["width"], page["height"]))
        for op in page["ops"]:
            if op[0] == "text":
                text(whole, *op[1:])
            elif op[0] == "shape":
                shape(whole, *op[1:])
            elif op[0] == "clip":
                whole.saveState()
                path = whole.beginPath()
                path.rect(*op[1:])
                whole.clipPath(path, stroke=0, fill=0)
            else:
                whole.restoreState()
        whole.showPage()
    whole.save()
    return out.getvalue()


def main():
    folder = sys.argv[1]
    with open(os.path.join(folder, "pages.json"), encoding="utf-8") as file:
        documents = json.load(file)["documents"]
    for face in FACES:
        pdfmetrics.registerFont(TTFont(face, os.path.join(folder, f"whole-{face}.ttf")))
    with multiprocessing.get_context("fork").Pool(os.cpu_count()) as pool:
        start = time.perf_counter()
        written = pool.map(document, documents, chunksize=2)
        took = time.perf_counter() - start
    if len(sys.argv) > 2:
        with open(sys.argv[2], "wb") as file:
            file.write(written[0])
    print(took, sum(map(len, documents)), sum(map(len, written)))


main()
