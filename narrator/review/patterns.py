"""Sentences that carry much: claims, limits, acts, stances, published figures, told by their words. `known_by: memory`."""

from __future__ import annotations

import re

CLAIMS = re.compile(
    r"(?i)\b(?:safe|safely|sound|adequate|adequately|satisfactory|guarantee[ds]?|certify|certified|up to code|meets code|"
    r"violations?|negotiate|walk away|perfect(?:ly)?|flawless|good (?:condition|shape|order)|"
    r"(?:is|are|was|were|looks?|all) (?:fine|ok|okay|normal)|no (?:problems?|concerns?|issues?|defects?|worries)|"
    r"nothing to worry|will last|we (?:confirm|guarantee|promise)|definitely|certainly|fully|serviceable|functional|as intended)\b"
)
LIMIT = re.compile(
    r"(?i)\bwe (?:did|do|could|can|have) not\b|\bnot (?:seen|inspected|tested|reached|opened|tried|entered|visible)\b|"
    r"\bnobody (?:has|saw)\b|\bwe saw (?:only|nothing|no)\b|\bwe read only\b|\bonly (?:a |in )?part\b|\bno opinion\b|"
    r"\bcould not\b|\bcannot tell\b|\bout of (?:reach|sight)\b|\bhidden\b|\bwithout opening\b"
)
ACT = re.compile(
    r"(?i)\bwe (?:told|warned|notified|informed|phoned|called|shut|turned|left word|switched)\b|\b(?:warned|notified)\b|"
    r"\bdo not (?:use|touch|run|enter|stand|light|let|go)\b|\btouch no\b|\bgo outside\b|\bemergency\b|"
    r"\bstay (?:off|out|away|clear)\b|\bkeep (?:everyone|anyone|children|people|away|off|out|clear)\b|"
    r"\b(?:nobody|no one) should\b|\bbefore anyone\b|\bcall first\b|\bdanger:"
)
STANCE = re.compile(
    r"(?i)\bwe think\b|\bopinion: |\bis an opinion\b|\bdid not trace\b|\btold us\b|\binfer|\bnot seen directly\b|"
    r"\bwe (?:did not see it happen|suspect|believe)\b|\baccording to\b"
)
CRITERION = re.compile(
    r"(?i)\b(?:usual|usually|common|commonly|called for|calls? for|figures?|reason to look|trade advice|or (?:more|less)|"
    r"at (?:most|least)|no (?:more|less) than|published|typical(?:ly)?|builders keep|would be|makers? (?:ask|call|say)|today's)\b"
)
