"""What each lesson's panel shows, computed: a setting goes in, a view with curves and readings comes out."""
