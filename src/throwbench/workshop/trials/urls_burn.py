"""Addresses of burns: lighting, the round, checks and what was put right."""

from django.urls import path

from throwbench.workshop.trials import views_burn, views_light, views_photo, views_round

burn_urls = [
    path("light/", views_light.light, name="light"),
    path("round/", views_round.round_, name="round"),
    path("round/all-out/", views_round.all_out, name="all_out"),
    path("round/handed-over/", views_round.hand_over, name="hand_over"),
    path("trials/<int:pk>/burns/", views_burn.burns, name="burns"),
    path("trials/<int:pk>/burn-sheet.pdf", views_burn.burn_sheet, name="burn_sheet"),
    path("burns/<int:pk>/", views_burn.burn, name="burn"),
    path("burns/<int:pk>/slip/", views_burn.burn_slip, name="burn_slip"),
    path("burns/<int:pk>/photo/", views_photo.add, name="add_photo"),
    path("photos/", views_photo.waiting, name="photos"),
    path("photos/<int:pk>/", views_photo.read, name="photo"),
    path("photos/<int:pk>/aside/", views_photo.aside, name="photo_aside"),
    path("photos/<int:pk>.jpg", views_photo.picture, name="picture"),
    path("checks/<int:pk>/slip/", views_burn.check_slip, name="check_slip"),
]
