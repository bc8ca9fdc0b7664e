"""Tasks: how a question is asked with a learner's own values, how a reply is graded, and where progress is kept."""
