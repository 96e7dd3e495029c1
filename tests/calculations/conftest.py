import small_case  # noqa: F401  puts the check of sheets on the import path
