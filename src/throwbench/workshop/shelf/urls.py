"""Addresses of the shelf."""

from django.urls import path

from throwbench.workshop.shelf import (
    views_blends,
    views_oils,
    views_shelf,
    views_things,
    views_vessels,
    views_waxes,
)

app_name = "shelf"
urlpatterns = [
    path("shelf/", views_shelf.index, name="index"),
    path("shelf/lots/", views_shelf.all_lots, name="lots"),
    path("shelf/oils/new/", views_oils.new, name="oil_new"),
    path("shelf/oils/<int:pk>/", views_oils.oil, name="oil"),
    path("shelf/oils/<int:pk>/change/", views_oils.change, name="oil_change"),
    path("shelf/oils/<int:pk>/papers/new/", views_oils.paper_new, name="paper_new"),
    path("shelf/blends/new/", views_blends.new, name="blend_new"),
    path("shelf/oils/<int:pk>/parts/", views_blends.change, name="blend_change"),
    path("shelf/waxes/new/", views_waxes.new, name="wax_new"),
    path("shelf/waxes/<int:pk>/", views_waxes.wax, name="wax"),
    path("shelf/waxes/<int:pk>/change/", views_waxes.change, name="wax_change"),
    path("shelf/wicks/new/", views_things.wick_new, name="wick_new"),
    path("shelf/wicks/<int:pk>/", views_things.wick, name="wick"),
    path("shelf/vessels/new/", views_vessels.new, name="vessel_new"),
    path("shelf/vessels/<int:pk>/", views_vessels.vessel, name="vessel"),
    path("shelf/vessels/<int:pk>/change/", views_vessels.change, name="vessel_change"),
    path("shelf/vessels/<int:pk>/pieces/new/", views_vessels.piece_new, name="piece_new"),
    path("shelf/pieces/<int:pk>/", views_vessels.piece, name="piece"),
    path("shelf/pieces/<int:pk>/washed/", views_vessels.wash, name="wash"),
    path("shelf/pieces/<int:pk>/flaw/", views_vessels.flaw_right, name="flaw_right"),
    path("shelf/fixings/new/", views_things.fixing_new, name="fixing_new"),
    path("shelf/<str:material>/<int:pk>/lots/new/", views_things.lot_new, name="lot_new"),
]
