"""Addresses of panels, and of the assessor's road, which hold a tag and nothing else."""

from django.urls import path

from throwbench.workshop.panel import (
    views_find,
    views_nose,
    views_panel,
    views_slips,
    views_someone_else,
    views_way_back,
)

PANELS = "trials/<int:trial>/panels/"
ONE = "trials/<int:trial>/panels/<int:pk>/"

app_name = "panel"
urlpatterns = [
    path(PANELS, views_panel.index, name="index"),
    path(f"{PANELS}new/", views_panel.new, name="new"),
    path(ONE, views_panel.panel, name="panel"),
    path(f"{ONE}hand-round/", views_panel.hand_round, name="hand_round"),
    path(f"{ONE}close/", views_panel.close, name="close"),
    path(f"{ONE}links/<int:sitting>/", views_panel.personal_link, name="link"),
    path(f"{ONE}out/<int:sitting>/", views_panel.sits_out, name="sits_out"),
    path(f"{ONE}slips.pdf", views_panel.slips_pdf, name="slips_pdf"),
    path(f"{ONE}front-tags.pdf", views_panel.front_tags_pdf, name="front_tags_pdf"),
    path(f"{ONE}slips/", views_slips.slips, name="slips"),
    path(f"{ONE}slips/<int:sitting>/", views_slips.slips_by, name="slips_by"),
    path(f"{ONE}right/<int:sniff>/", views_slips.put_right, name="put_right"),
    path("find/", views_find.find, name="find"),
    path("nose/find/", views_find.find_tag, name="find_tag"),
    path("nose/", views_nose.whose_nose, name="whose_nose"),
    path("nose/is/", views_nose.this_is, name="this_is"),
    path("nose/someone-else/", views_someone_else.someone_else, name="someone_else"),
    path("nose/mine/", views_nose.mine, name="mine"),
    path("nose/mine/out/", views_nose.sit_out, name="sit_out"),
    path("nose/mine/today/", views_nose.my_nose, name="my_nose"),
    path("nose/thanks/", views_nose.thanks, name="thanks"),
    path("nose/by/<str:token>/", views_nose.open_link, name="by_link"),
    path("nose/not-me/", views_nose.not_me, name="not_me"),
    path("nose/<int:tag>/", views_nose.score, name="score"),
    path("way-back/", views_way_back.way_back, name="way_back"),
]
