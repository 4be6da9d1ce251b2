"""Nothing leaves the file and nothing gets into it; without a script it is a document."""

from __future__ import annotations

import yaml
from playwright.sync_api import Dialog

from booklet.kit.load import parse_kit
from booklet.placing.resolved import resolve_kit
from booklet.web.companion import make_companion
from tests.browser.opened import Open, chromium_alone
from tests.web.test_document import KITS_FOLDER, sharpened, spec_text


def test_a_spec_that_would_be_a_script_stays_words(open_companion: Open) -> None:
    spec = yaml.safe_dump(sharpened(yaml.load(spec_text("roof-garden"), yaml.BaseLoader)), allow_unicode=True)
    html = make_companion(resolve_kit(parse_kit(spec, "sharp.yaml", KITS_FOLDER))).html
    companion = open_companion("sharp", html=html)
    dialogs: list[str] = []

    def told(dialog: Dialog) -> None:
        dialogs.append(dialog.message)
        dialog.dismiss()

    companion.page.on("dialog", told)
    assert "</style></script><script>alert(" in companion.page.locator("#view-start h1").inner_text()
    for view in ("cut", "pieces", "pages", "booklet", "settings"):
        companion.view(view)
    companion.to("#/kit")
    assert companion.page.locator("#view-kit").is_visible()
    assert companion.page.locator("[onclick], body script:not([type=module])").count() == 0
    assert dialogs == []


def test_nothing_is_asked_for_in_any_view(open_companion: Open) -> None:
    for kit in ("hill-line", "roof-garden"):
        companion = open_companion(kit)
        for view in ("cut", "pieces", "pages", "booklet", "settings", "start"):
            companion.view(view)
            companion.page.wait_for_timeout(50)
        companion.to("#/kit")
        companion.page.wait_for_timeout(50)
        assert companion.asked_for == []


def test_the_policy_keeps_out_what_somebody_adds(open_companion: Open) -> None:
    companion = open_companion()
    companion.page.evaluate(
        "() => { window.refused = [];"
        "const note = (event) => refused.push(event.effectiveDirective);"
        "document.addEventListener('securitypolicyviolation', note);"
        "const added = document.createElement('script'); added.textContent = 'window.broken = 1';"
        "document.body.append(added); const image = new Image(); image.src = 'http://127.0.0.1:9/x.png';"
        "document.body.append(image); }"
    )
    companion.page.wait_for_timeout(200)
    assert companion.page.evaluate("window.broken") is None
    assert companion.page.evaluate("refused") == ["script-src-elem", "img-src"]
    companion.complaints.clear()
    companion.asked_for.clear()


@chromium_alone
def test_without_a_script_the_whole_booklet_is_read(open_companion: Open) -> None:
    companion = open_companion(java_script_enabled=False)
    page = companion.page
    assert page.locator("#booklet").is_visible()
    assert page.locator("#head").is_hidden()
    assert page.locator(".view:visible").count() == 0
    assert page.locator("#booklet > section:visible").count() > 25
    page.click("#booklet .contents a[href='#sheet-carriage']")
    assert page.locator("#sheet-carriage h2").is_visible()
