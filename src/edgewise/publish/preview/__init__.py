"""The preview: a lesson's page made anew at every save."""
