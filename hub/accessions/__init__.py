"""Accessions, their lots and the seed ledger, labels and letters of thanks."""
