"""Addresses of trust, and of the worker that keeps pages."""

from django.urls import path

from throwbench.web.keep.view import worker
from throwbench.web.trust.view import certificate, page

app_name = "trust"
urlpatterns = [
    path("trust/", page, name="page"),
    path("trust/throwbench-<slug:mark>.crt", certificate, name="certificate"),
    path("worker.js", worker, name="worker"),
]
