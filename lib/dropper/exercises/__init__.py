"""The workbook's tasks: values drawn for each learner, answers computed, slips recognised by the number they give.

    from dropper import exercises

    asked = exercises.question("string_current").ask(seed=7)
    asked.prompt, asked.judge("12 mA").said
    exercises.of_lesson(2)          # every task of the second lesson

A task names its own values, what the theory makes of them, up to three hints and the slips it knows.
Nothing is computed, and neither sympy nor the solver is loaded, before an answer is wanted.
"""

from .catalogue import LESSONS, QUESTIONS, of_lesson, question

__all__ = ["LESSONS", "QUESTIONS", "of_lesson", "question"]
