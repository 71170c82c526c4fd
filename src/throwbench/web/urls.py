"""Root addresses: each slice has its own."""

from django.urls import include, path

from throwbench.web.entry.view import hello
from throwbench.web.today.view import page as today
from throwbench.web.waiting import page as waiting

today_urls = [
    path("", today, name="today"),
    path("entries/", hello, name="entries"),
    path("waiting/", waiting, name="waiting"),
]
urlpatterns = [
    path("", include("throwbench.workshop.line.urls")),
    path("", include("throwbench.workshop.panel.urls")),
    path("", include("throwbench.workshop.trials.urls")),
    path("", include("throwbench.workshop.shelf.urls")),
    path("", include("throwbench.workshop.house.urls")),
    path("", include("throwbench.web.alarm.urls")),
    path("", include("throwbench.web.trust.urls")),
    path("", include((today_urls, "web"))),
]
handler404 = "throwbench.web.errors.not_there"
handler403 = "throwbench.web.errors.not_allowed"
handler400 = "throwbench.web.errors.not_understood"
handler500 = "throwbench.web.errors.broke"
