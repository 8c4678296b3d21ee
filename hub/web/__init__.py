"""What every page shares: the guard, forms, errors, paging, headers, language, assets, HTML to PDF."""
