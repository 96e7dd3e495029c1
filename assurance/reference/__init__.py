"""The reference: pages of text made from the installed models, rules and methods, so that they cannot differ.

Each page is Markdown by its address in the site, without the ending.
"""

from collections.abc import Mapping

FOLDER = "reading"  # where the pages that come with the tool stand in the site


def reference_texts() -> Mapping[str, str]:
    """Every page of the reference by its address."""
    from assurance.reference.data_page import data_page
    from assurance.reference.methods_page import methods_page
    from assurance.reference.records_page import records_page
    from assurance.reference.rules_page import rules_page
    from assurance.reference.units_page import units_page

    return {
        f"{FOLDER}/data": data_page(),
        f"{FOLDER}/methods": methods_page(),
        f"{FOLDER}/records": records_page(),
        f"{FOLDER}/rules": rules_page(),
        f"{FOLDER}/units": units_page(),
    }


__all__ = ["FOLDER", "reference_texts"]
