"""Rules as data, asked of a dish through a closed list of predicates."""
