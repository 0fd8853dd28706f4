"""Files in and out: CSV, XLSX, JSON, TOML."""
