"""Pages, drawings and data of the site, made from a finished assessment; nothing is written here."""
