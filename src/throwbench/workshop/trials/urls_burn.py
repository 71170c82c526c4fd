from django.urls import URLPattern

burn_urls: list[URLPattern] = []
