"""Runs the whole program on the model whose pages were dumped, and shows it beside those that only draw them."""

import json
import os
import resource
import shutil
import subprocess
import sys
import time

MODEL = "specs/models/cairn-10.hob"
RUNS = 7


def said(work, name):
    with open(os.path.join(work, name), encoding="utf-8") as file:
        seconds, pages, size = file.read().split()
    return float(seconds), int(pages), int(size)


def whole(work):
    """The median of whole runs: reading, judging, laying out, writing to the disk."""
    out, took = os.path.join(work, "sheets"), []
    for _ in range(RUNS):
        shutil.rmtree(out, ignore_errors=True)
        start = time.perf_counter()
        ran = subprocess.run(["target/release/hobnail", "sheets", MODEL, "--out", out], capture_output=True, check=True)
        took.append(time.perf_counter() - start)
    pages = int(ran.stdout.split()[2])
    size = sum(entry.stat().st_size for entry in os.scandir(out))
    return sorted(took)[RUNS // 2], pages, size


def main():
    work = sys.argv[1]
    ours = whole(work)
    # The largest of all children so far; they are these runs alone.
    megabytes = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    with open(os.path.join(work, "dump", "pages.json"), encoding="utf-8") as file:
        written = json.load(file)["seconds"]
    writer, lab = said(work, "pdf-writer.txt"), said(work, "reportlab.txt")
    rows = [
        ("hobnail, the whole run", *ours),
        ("hobnail, writing alone", written, ours[1], None),
        ("pdf-writer, drawing alone", *writer),
        ("reportlab, drawing alone", *lab),
    ]
    for name, seconds, pages, size in rows:
        kilobytes = "" if size is None else f"{size / pages / 1000:6.1f} kB a page"
        print(f"{name:28}{seconds * 1000:9.1f} ms {pages / seconds:8.0f} pages a second  {kilobytes}")
    checks = [
        ("pages a second, the whole run", ours[1] / ours[0], ">=", 800),
        ("times pdf-writer's, the whole run", ours[0] / writer[0], "<=", 2.5),
        ("times pdf-writer's, writing alone", written / writer[0], "<=", 2.5),
        ("times as fast as reportlab, the whole run", lab[0] / ours[0], ">=", 8),
        ("kB a page", ours[2] / ours[1] / 1000, "<", 40),
        ("MB held at most", megabytes, "<", 200),
    ]
    held = True
    for what, value, how, limit in checks:
        passes = {">=": value >= limit, "<=": value <= limit, "<": value < limit}[how]
        held = held and passes
        print(f"{value:8.2f} {what} ({how} {limit}): {'holds' if passes else 'MISSED'}")
    sys.exit(0 if held else 1)


main()
