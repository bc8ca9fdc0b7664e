"""Plan page: a lesson's plan on one side, A4 or Letter."""

from __future__ import annotations

from collections.abc import Sequence

from ..circuit import html
from ..sheet import document, origin
from .bets import Bet
from .plan import Plan

STAGE = (
    "On the projector: open the notebook, press F8. The question stands alone; number keys count hands (Shift takes one"
    " back), Enter shows the panel, S the answer when you ask for it, N and P turn to the next panel and back, Shift+R"
    " makes ready for the next class, Esc leaves."
)
CAUTION = (
    "Learners work in the workbook. A lamp on the mains is for a teacher who is allowed to work on mains, by the codes"
    " of the place, closed and behind residual-current protection; nothing in it may be touched while it is plugged in."
)
_STYLE = """
html { font-size: 8.6pt; line-height: 1.24; }
h1 { font-size: 1.7rem; }
section, .plan > table { margin-top: .5rem; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: .1rem 1.2rem; align-items: start; }
.plan ul { list-style: disc; padding-left: 1rem; }
.plan ol { margin: 0; padding-left: 1.2rem; }
.plan i { color: #333; }
th[scope=row] { text-align: right; }
td:nth-child(2) { white-space: nowrap; font-weight: bold; }
.bets p { margin-top: .25rem; }
.bets ul { list-style: none; padding-left: 1rem; }
footer { padding-top: .15rem; }
"""


def plan_page(plan: Plan, bets: Sequence[Bet], paper: str = "A4") -> str:
    """A plan as an HTML document.

    Parameters
    ----------
    bets
        What the lesson asks, from its notebook.
    """
    title = f"{plan.lesson:02} · {plan.title}"
    steps = html.table("50 minutes", ("min", "what", "how"), [(str(each), *texts) for each, *texts in plan.minutes])
    body = [
        html.tag("h1", title, " · plan"),
        html.tag("div", _part("Aims", _list(plan.aims)), _before(plan), css="two"),
        steps,
        _part("The class bets, and what to say", *map(_bet, bets), css="bets") if bets else "",
        _part("Questions in sequence", html.tag("ol", html.items(map(_asked, plan.questions)))),
        html.tag(
            "div",
            _paths(plan),
            _part("Exit ticket, on paper", html.tag("ol", html.items(map(_asked, plan.ticket)))),
            css="two",
        ),
        html.tag("footer", html.tag("p", f"{STAGE} {CAUTION} {origin()}")),
    ]
    return document(f"Plan {title}", html.tag("div", *body, css="plan"), paper=paper, style=_STYLE)


def _part(heading, *content, css=""):
    return html.tag("section", html.tag("h2", heading), *content, css=css)


def _list(texts):
    return html.tag("ul", html.items(texts))


def _before(plan):
    return html.tag(
        "div",
        _part("Known before", html.tag("p", plan.before)),
        _part("Words of a curriculum", html.tag("p", plan.words)),
    )


def _asked(pair):
    question, answer = pair
    return html.joined(question, " ", html.tag("i", answer))


def _bet(bet):
    """One question: what holds, and a reply to each of the others."""
    others = [
        html.joined("“", text, "” ", html.tag("i", bet.causes[key]))
        for key, text in bet.answers.items()
        if key != bet.right and key in bet.causes
    ]
    holds = html.joined(" → ", html.tag("b", bet.answers[bet.right]), " ") if bet.right else " "
    return html.joined(html.tag("p", bet.question, holds, bet.outcome), html.tag("ul", html.items(others)))


def _paths(plan):
    alike = plan.alike()
    discussion = f"One answer for everybody, so good for a discussion: {', '.join(alike)}." if alike else ""
    return _part(
        "Tasks",
        html.tag(
            "p",
            html.tag("b", "Easier: "),
            plan.numbers(plan.easier),
            ". ",
            html.tag("b", "Harder: "),
            plan.numbers(plan.harder),
            ". ",
            discussion,
        ),
        html.tag("p", html.tag("b", "Homework: "), plan.homework),
    )
