"""The phone's style sheets as one file: on a slow phone each file of a start costs some 5 ms, whatever its size.

manifest/styles.txt names them in the order in which they stand, one a line, from the folder that holds web/.
"""

from .. import asset_dir

ADDRESS = "/web/look/phone.css"  # beside its parts: their relative addresses hold


def together() -> bytes | None:
    """All of them; None where the list is not there."""
    listed = asset_dir("manifest") / "styles.txt"
    if not listed.is_file():
        return None
    names = [line.partition("#")[0].strip() for line in listed.read_text("utf-8").splitlines()]
    return b"\n".join((asset_dir("web") / name.removeprefix("web/")).read_bytes() for name in names if name)
