"""Estimates for the owner's phones. A helper's phone is refused: what a coin is worth is the owner's to know."""

from datetime import date

from flask import Response, request

from ..records import worth_tables
from . import here, packing
from .api import api, paired, refuse


@api.get("/worth")
def worth():
    if paired().role != "owner":
        return refuse("owners_only", "Estimates go to the owner’s phones only.")
    said, tag = worth_tables.text(here.book().settings(), date.today())
    response = Response(status=304) if tag in request.if_none_match else packing.json(said)
    response.set_etag(tag)
    response.headers["Cache-Control"] = "private, no-cache"
    return response
