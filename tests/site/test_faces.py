"""What a person typed stands in the authored face on every page; built words never do."""

from html.parser import HTMLParser

from published_demo import publish_text

TYPED = "Typed"  # stands in every sentence and name below that a person typed
CASE = """\
case:
  faces:
    title: A case
    item: Thing
    notice: Typed notice.
    top_claims: {use: top}
    as_of: 2026-03-12
    people: {lead: {name: Lead}}
    quantities: [Typed strength]
conditions:
  cold: {title: Typed temperature, range: 5 to 25 degC}
  who: {title: Typed persons, values: [Typed one]}
claims:
  top:
    statement: Typed statement of the top.
    owner: lead
    quantity: Typed strength
    assumes: [guess]
    argument:
      because: Typed reason.
      checks: [{result: report.load, at_least: 1 kN, because: Typed limit}]
      rests_on: [{record: report, shows: Typed finding, where: Typed page}, risky, stub]
  stub: {statement: Typed stub., owner: lead, undeveloped: {because: Typed wait, owner: lead}}
  risky: {statement: Typed risk., owner: lead, about: [fall], argument: {because: Typed., rests_on: [report]}}
assumptions:
  guess: {statement: Typed guess., owner: lead}
challenges:
  doubt: {against: top, doubt: Typed doubt., owner: lead}
  settled: {against: stub, doubt: Typed other., state: answered, answer: Typed answer.}
evidence:
  report:
    title: Typed report
    kind: test
    anomalies: [{what: Typed anomaly., disposition: Typed disposition.}]
    results: {load: {value: 2 kN, where: Typed table}}
calculations:
  sum:
    title: Typed sum
    method: reserve_factors
    inputs: {applied: 1 MPa, allowable: 2 MPa, criterion: plain way}
parts:
  rod: {title: Typed rod, load_path: single}
hazards:
  fall:
    title: Typed fall
    harm: Typed harm.
    exposed: Typed people
    life_phase: Typed phase
    owner: lead
    claim: risky
    causes: [{record: crack}, Typed slip]
    before: {severity: Catastrophic, likelihood: Occasional}
    options_rejected: [Typed option]
    controls: {net: {text: Typed net., type: safeguard, check_interval: Typed weekly}}
failure_modes:
  crack:
    title: Typed crack
    item: rod
    mode: Typed mode
    function: Typed function
    effects: [{text: Typed effect, severity: 9}]
    causes: {wear: {text: Typed wear, occurrence: 3, detection: 3, controls: [Typed look]}}
actions:
  fix: {what: Typed fix., on: crack, owner: lead, due: 2026-01-01}
"""
UNSPOKEN = {"pre", "title", "script"}  # the record as written, and names of pages
EMPTY_TAGS = {"meta", "link", "br", "path", "rect", "circle", "input"}


class Faces(HTMLParser):
    """The texts of a page with the classes that they stand in."""

    def __init__(self, text):
        super().__init__()
        self.open = []
        self.texts = []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        if tag not in EMPTY_TAGS:
            self.open.append((tag, set((dict(attributes).get("class") or "").split())))

    def handle_endtag(self, tag):
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data):
        tags = {tag for tag, _ in self.open}
        if data.strip() and not tags & UNSPOKEN:
            self.texts.append((data.strip(), set().union(*(css for _, css in self.open))))


def test_what_a_person_typed_stands_in_the_authored_face_on_every_page(tmp_path):
    wrong = set()
    for page in sorted(publish_text(CASE, tmp_path).site.rglob("*.html")):
        if page.parent.name == "reading":
            continue  # the tool's own reference: nobody typed it in this case
        for text, css in Faces(page.read_text("utf-8")).texts:
            if TYPED in text and "said" not in css:
                wrong.add((page.name, text))
    assert not wrong


def test_what_a_person_typed_is_shown_somewhere(tmp_path):
    pages = publish_text(CASE, tmp_path).site.rglob("*.html")
    shown = " ".join(text for page in pages for text, _ in Faces(page.read_text("utf-8")).texts)
    for word in [
        "notice",
        "one",
        "limit",
        "finding",
        "answer",
        "disposition",
        "weekly",
        "option",
        "slip",
        "fix",
    ]:
        assert f"{TYPED} {word}" in shown, word
