"""Addresses of the verdict, the decisions and the line."""

from django.urls import path

from throwbench.workshop.line import papers, views_decide, views_line, views_verdict
from throwbench.workshop.line.views_verdict import paper

app_name = "line"
urlpatterns = [
    path("trials/<int:pk>/verdict/", views_verdict.verdict, name="verdict"),
    path("trials/<int:pk>/verdict/ask/", views_verdict.ask, name="ask"),
    path(
        "trials/<int:pk>/report.pdf",
        paper("application/pdf", papers.report_of, ".pdf"),
        name="report",
    ),
    path(
        "trials/<int:pk>/picture.png", paper("image/png", papers.picture_of, ".png"), name="picture"
    ),
    path(
        "trials/<int:pk>/table.csv",
        paper("text/csv; charset=utf-8", papers.table_of, ".csv"),
        name="table",
    ),
    path(
        "trials/<int:pk>/export.zip",
        paper("application/zip", papers.archive_bytes, ".zip"),
        name="export",
    ),
    path(
        "trials/<int:pk>/judgements/<int:judgement>/export.zip",
        views_verdict.archive,
        name="archive",
    ),
    path("trials/<int:pk>/join/", views_decide.join, name="join"),
    path("trials/<int:pk>/decide/<int:candidate>/", views_decide.decide, name="decide"),
    path("trials/<int:pk>/compare/<path:theme>/", views_line.compare, name="compare"),
    path("line/", views_line.index, name="index"),
    path("line/compare/", views_line.compare_idea, name="compare_idea"),
]
