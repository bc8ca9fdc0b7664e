"""Powers: watts, volt-amperes and what lies between them."""
