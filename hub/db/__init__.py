"""The store: engine, work, tenancy, numbering, files, jobs and migrations. It knows no feature."""
