"""The allowance of a population and the ledger of what was reserved and taken against it."""
