"""Tasks: how a question is put with values of the learner's own, how a reply is graded, and what is kept of it."""
