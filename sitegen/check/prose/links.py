"""Links: every one leads somewhere, and nothing an author types as Markdown is lost on the page."""

import re
from typing import Final

from sitegen.check.prose.passages import Link, Passage
from sitegen.check.prose.setting import Setting
from sitegen.model.reference import SCHEMES, split_scheme
from sitegen.problems import Problem, Refusal, did_you_mean

WEB: Final = ("http", "https")
_TYPED: Final = re.compile(rf"\[[^\[\]\n]*\]\((?:{'|'.join(SCHEMES)}):[^()\s]*\)")


def links_lead_somewhere(passage: Passage, setting: Setting) -> None:
    """Each link's scheme is known and its target is there."""
    for link in passage.links:
        scheme, _ = split_scheme(link.address)
        if scheme in WEB:
            continue
        if scheme not in SCHEMES:
            _unknown_scheme(link, scheme, passage, setting)
            continue
        try:
            setting.resolve(link.address)
        except Refusal as refusal:
            setting.problems.add(
                Problem(
                    code=refusal.code,
                    at=setting.span(passage, (link.start, link.end)),
                    message=refusal.message,
                    help=refusal.help,
                    notes=refusal.notes,
                )
            )


def _unknown_scheme(link: Link, scheme: str, passage: Passage, setting: Setting) -> None:
    known = ", ".join(f"`{name}:`" for name in SCHEMES)
    what = f"`{scheme}:` is no kind of link" if scheme else f"the link to `{link.address}` has no kind"
    setting.problems.add(
        Problem(
            code="unknown-link-scheme",
            at=setting.span(passage, (link.start, link.end)),
            message=what,
            help=(did_you_mean(scheme, SCHEMES) if scheme else "")
            or f"write {known} before the target, or a whole web address with `https://`",
        )
    )


def nothing_is_lost(passage: Passage, setting: Setting) -> None:
    """Raw HTML in Markdown, and links in texts that are not Markdown, would stand there as typed."""
    seen = 0
    for token in passage.tokens:
        if token.type not in ("html_inline", "html_block"):
            continue
        tag = token.content.strip().split("\n")[0]
        start = max(passage.text.find(tag, seen), 0)
        seen = start + len(tag)
        setting.problems.add(
            Problem(
                code="html-in-markdown",
                at=setting.span(passage, (start, seen)),
                message=f"HTML is not read: `{tag}` would stand on the page as typed",
                help="delete it; `*word*` leans, `**word**` is bold, an empty line starts a paragraph",
            )
        )
    for match in () if passage.markdown else _TYPED.finditer(passage.text):
        setting.problems.add(
            Problem(
                code="link-in-plain-text",
                at=setting.span(passage, match.span()),
                message=f"`{match.group()}` would stand on the page as typed: this field has no links",
                help="write the words alone, or move the sentence to `do`, `mixing`, `note` or `about`",
            )
        )
