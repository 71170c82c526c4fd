"""Addresses of burns: lighting, the round, checks and what was put right."""

from django.urls import path

from throwbench.workshop.trials import views_burn, views_light, views_round

burn_urls = [
    path("light/", views_light.light, name="light"),
    path("round/", views_round.round_, name="round"),
    path("round/all-out/", views_round.all_out, name="all_out"),
    path("round/handed-over/", views_round.hand_over, name="hand_over"),
    path("trials/<int:pk>/burns/", views_burn.burns, name="burns"),
    path("trials/<int:pk>/burn-sheet.pdf", views_burn.burn_sheet, name="burn_sheet"),
    path("burns/<int:pk>/", views_burn.burn, name="burn"),
    path("burns/<int:pk>/slip/", views_burn.burn_slip, name="burn_slip"),
    path("checks/<int:pk>/slip/", views_burn.check_slip, name="check_slip"),
]
