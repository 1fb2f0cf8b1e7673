"""Everything in one zip."""

import tempfile
from datetime import date

from flask import send_file

from ...records import export
from .. import here
from . import desk


@desk.get("/export.zip")
def export_all():
    out = tempfile.TemporaryFile()  # on disk: a book with photos is larger than what should be held in memory
    export.write_zip(here.book(), out)
    out.seek(0)
    name = f"exergue-{date.today().isoformat()}.zip"
    return send_file(out, mimetype="application/zip", as_attachment=True, download_name=name)
