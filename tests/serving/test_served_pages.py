"""What is sent for an address: the site and nothing else, with the script added on the way only."""

import re

import pytest

from assurance.serving.pages import file_of, reply

POLICY = "default-src 'none'; script-src 'self'; base-uri 'none'"
META = f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
PAGE = f"<html>\n<head>\n{META}\n</head>\n<body>é</body></html>"


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "site"
    (folder / "claims").mkdir(parents=True)
    (folder / "index.html").write_text(PAGE, "utf-8")
    (folder / "claims" / "a.html").write_text(PAGE, "utf-8")
    (folder / "data.js").write_text("var a = 1;\n")
    (folder / ".holdwater-site").write_text("marker\n")
    (tmp_path / "secret.txt").write_text("secret\n")
    return folder


def test_a_page_is_sent_with_the_script_and_stays_on_disk_as_it_was(site):
    sent = reply(site, "/claims/a.html", build="x-1")

    assert sent.status == 200
    assert b'<script src="/-/overlay.js" data-build="x-1"' in sent.content
    assert "<body>é</body>".encode() in sent.content
    assert (site / "claims" / "a.html").read_text("utf-8") == PAGE


def test_its_policy_allows_the_script_to_hear_of_news_and_nothing_more(site):
    sent = reply(site, "/", build="x-1")
    within = re.search(rb'Policy" content="([^"]*)"', sent.content)[1].decode()

    assert within == f"{POLICY}; connect-src 'self'"
    assert sent.policy == f"{within}; frame-ancestors 'none'"


def test_a_page_without_a_policy_gets_the_strictest(site):
    (site / "bare.html").write_text("<head></head>")
    assert reply(site, "/bare.html", build="x-1").policy.startswith("default-src 'none'; connect-src 'self'")


def test_what_is_no_page_is_sent_byte_for_byte(site):
    sent = reply(site, "/data.js?x=1", build="x-1")
    assert (sent.content, sent.kind) == (b"var a = 1;\n", "text/javascript; charset=utf-8")


def test_the_digest_is_that_of_the_published_page(site):
    assert reply(site, "/", build="x-1").digest == reply(site, "/index.html", build="x-2").digest


NOT_THERE = [
    *("/../secret.txt", "/%2e%2e/secret.txt", "/claims/../../secret.txt", "/..%2fsecret.txt"),
    *("/claims/%2e%2e%2f%2e%2e%2fsecret.txt", "/..\\secret.txt", "/C:/secret.txt", "//secret.txt"),
    *("/.holdwater-site", "/claims/.hidden", "/./index.html", "/link.txt", "/linked/secret.txt"),
    *("/claims", "/claims/", "/index.html/", "/index.html%00.js", "/%ff", "/" + "a" * 5000),
    *("secret.txt", "*", "http://other/secret.txt", ""),
]


@pytest.mark.parametrize("target", NOT_THERE)
def test_an_address_that_names_no_file_of_the_site_gives_404(site, target):
    (site / "link.txt").symlink_to(site.parent / "secret.txt")
    (site / "linked").symlink_to(site.parent)
    sent = reply(site, target, build="x-1")

    assert sent.status == 404
    assert b"secret\n" not in sent.content


def test_an_address_is_shown_as_text(site):
    sent = reply(site, "/<script>alert(1)</script>", build="x-1")
    assert b"<script>alert" not in sent.content
    assert b"overlay.js" in sent.content, "it would not hear when the page is there"


def test_a_link_inside_the_site_is_followed(site):
    (site / "again.html").symlink_to(site / "index.html")
    assert file_of(site, "/again.html") == (site / "index.html").resolve()


def test_before_the_first_build_there_is_a_page_that_waits(tmp_path):
    assert b"overlay.js" in reply(tmp_path / "none", "/", build="x-0").content
