"""Which languages there are, and which one is spoken."""

from typing import Final

from PySide6.QtCore import QLocale

from crewtrack.office.shipped import shipped
from crewtrack.screens import language

LANGUAGES: Final = ("en", "de")


def speak(name: str) -> None:
    """Show texts in a language from now on (``de``, or a locale such as ``de_AT``); one that
    there is no catalogue for is shown in English."""
    short = name.replace("-", "_").partition("_")[0]
    if short not in LANGUAGES or short == language.ENGLISH:
        language.use(language.ENGLISH, {})
    else:
        language.use(short, language.read_catalogue(shipped("languages", f"{short}.toml")))


def own_name(name: str) -> str:
    """What a language calls itself."""
    return QLocale(name).nativeLanguageName()
