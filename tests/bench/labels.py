"""Speed and memory of label printing: 1,020 labels beside their bare QR matrices, in one run. Prints figures.

    python tests/bench/labels.py [--labels 1020] [--format letter-30]
"""

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # this file is called labels, too

import qrcode
from labels.samples import BASE, labels

from exergue.labels import formats, readback, sheet

BAR_TIME, BAR_MEMORY = 3.0, 200  # times the bare matrices; MB


def bare(addresses: list[str]) -> float:
    """Seconds that the QR library alone takes for the matrices."""
    start = time.perf_counter()
    for address in addresses:
        code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M)
        code.add_data(address)
        code.make()
    return time.perf_counter() - start


def print_once(count: int, key: str, dpi: int, out: str) -> dict:
    """One print in this process: seconds of it and of the bare matrices around it, and the peak of memory in MB."""
    which = labels(count, BASE)
    addresses = [one.address for one in which]
    sheet.print_pdf(which[:1], formats.get(key), dpi, out=out)  # the library's tables and the faces are loaded
    floor = bare(addresses)
    start = time.perf_counter()
    printed = sheet.print_pdf(which, formats.get(key), dpi, out=out)
    seconds = time.perf_counter() - start
    floor = min(floor, bare(addresses))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 * (1024 if sys.platform == "darwin" else 1))
    return {"pages": printed.pages, "seconds": seconds, "floor": floor, "peak": peak, "bytes": Path(out).stat().st_size}


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--labels", type=int, default=1020)
    asked.add_argument("--format", default="letter-30")
    asked.add_argument("--one", nargs=2, metavar=("DPI", "OUT"), help=argparse.SUPPRESS)
    given = asked.parse_args()
    if given.one:
        print(json.dumps(print_once(given.labels, given.format, int(given.one[0]), given.one[1])))
        return
    ids = [one.id for one in labels(given.labels, BASE)]
    print(f"{given.labels} labels, {given.format}; floor: the same QR matrices from the library alone, same process")
    print(" dpi pages  print s  floor s  ratio  peak MB  PDF kB  read at 203 / 300 / 600 dpi")
    with tempfile.TemporaryDirectory() as folder:
        for dpi in formats.DPI:
            out = f"{folder}/labels-{dpi}.pdf"
            command = [sys.executable, __file__, "--labels", str(given.labels), "--format", given.format]
            done = subprocess.run([*command, "--one", str(dpi), out], check=True, capture_output=True, text=True)
            got = json.loads(done.stdout)
            read = " / ".join(str(len(readback.check(out, ids, raster).read)) for raster in formats.DPI)
            print(
                f"{dpi:>4} {got['pages']:>5} {got['seconds']:>8.2f} {got['floor']:>8.2f} "
                f"{got['seconds'] / got['floor']:>6.2f} "
                f"{got['peak']:>8.0f} {got['bytes'] / 1000:>7.0f}  {read}"
            )
    print(f"bars: ratio at most {BAR_TIME:g}, peak at most {BAR_MEMORY} MB, {given.labels} read at each")


if __name__ == "__main__":
    main()
