"""Rules of the trade: doses, curing, labels, findings, money and time of day."""
