"""The words of the trade as frozen types: quantities, amounts, substances, recipes, the archive."""
