"""Addresses of pour day, the cure, sheets, and one candle."""

from django.urls import path

from throwbench.workshop.trials import views_candle, views_cure, views_pour, views_sheets

pour_urls = [
    path("trials/<int:pk>/pour/", views_pour.pour_day, name="pour"),
    path("trials/<int:pk>/pour/begin/<int:candidate>/", views_pour.begin, name="begin_pour"),
    path("trials/<int:pk>/pour/<int:pour>/", views_pour.bench, name="bench"),
    path("trials/<int:pk>/pour/<int:pour>/weigh/<str:what>/", views_pour.weigh, name="weigh"),
    path("trials/<int:pk>/pour/<int:pour>/read/", views_pour.temperature, name="read"),
    path(
        "trials/<int:pk>/pour/<int:pour>/read/<int:reading>/slip/",
        views_pour.reading_slip,
        name="reading_slip",
    ),
    path("trials/<int:pk>/pour/<int:pour>/poured/", views_pour.poured, name="poured"),
    path("trials/<int:pk>/cure/", views_cure.cure, name="cure"),
    path("trials/<int:pk>/pour-sheet.pdf", views_sheets.pour_sheet, name="pour_sheet"),
    path("trials/<int:pk>/code-tags.pdf", views_sheets.code_tags, name="code_tags"),
    path("trials/<int:pk>/shelf-tags.pdf", views_sheets.shelf_tags, name="shelf_tags"),
    path("candles/<str:code>/", views_candle.candle, name="candle"),
    path("candles/<str:code>/swapped/", views_candle.swapped, name="swapped"),
    path("candles/<str:code>/fitted/", views_candle.fitted, name="fitted"),
    path("candles/<str:code>/slip/<int:weighing>/", views_candle.slip, name="slip"),
]
