// The page in a real browser. Needs web/out (web/build.sh) and the program itself (cargo build).
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { asked, begun, buttons, here, kept, launch, menu, serve, tap, visit, words } from "./browser.mjs";

const SIZES = [{ width: 412, height: 800 }, { width: 360, height: 640 }, { width: 1200, height: 900 }];
const PHONE = SIZES[0];
// Looks a whole consultation may take; the program stops by itself long before.
const MOST_LOOKS = 40;

// What closes a popup, whatever it is called there.
const LEAVE = /^Esc /;

let server, browser;
before(async () => {
  mkdirSync(here("shots"), { recursive: true });
  [server, browser] = [await serve(), await launch()];
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

const shot = (page, name) => page.screenshot({ path: here(`shots/${name}.png`) });
const visitor = (size, more) => visit(browser, server.address, { ...size, ...more });
const fine = (visitor) => assert.deepEqual(visitor.wrong, []);
const line = (page) => page.evaluate(() => document.activeElement?.id);

// Past the welcome and the first glance.
async function begin(v) {
  assert.equal(await asked(v.page), "Where was the piece found?");
  // A setting is marked by a tap, and taken by another.
  const [, second] = await buttons(v.page);
  await tap(v, second.text);
  assert.equal(await asked(v.page), "Where was the piece found?");
  await tap(v, second.text);
  await tap(v, LEAVE);
}

// A phone's foot has no room for every key: the list of keys has them all.
async function openMark(v) {
  if (v.finger) await tap(v, /^h all keys/);
  await tap(v, /^m /);
}

// The findings of the open question: numbered buttons.
const findings = async (page) => (await buttons(page)).filter((b) => /^\d+ /.test(b.text));

for (const size of SIZES) {
  const name = `${size.width}x${size.height}`;
  describe(name, () => {
    test("a whole consultation by taps", async () => {
      const v = await visitor(size);
      await shot(v.page, `${name}-welcome`);
      await begin(v);
      await shot(v.page, `${name}-question`);
      // README's picture, made anew as its screens are.
      if (size === PHONE && process.env.README_SCREENS === "overwrite") {
        await v.page.screenshot({ path: here("../../docs/phone.png") });
      }
      let looks = 0;
      while (!/see the whole verdict/.test(await words(v.page))) {
        assert.ok(looks < MOST_LOOKS, await words(v.page));
        if ((await findings(v.page)).length === 0 || /^Mark$/m.test(await asked(v.page))) {
          await tap(v, LEAVE);
          continue;
        }
        const question = await asked(v.page);
        const [first] = await findings(v.page);
        await tap(v, first.text);
        looks += 1;
        assert.notEqual(await asked(v.page), question);
      }
      assert.ok(looks >= 3, `${looks} looks`);
      await tap(v, /see the whole verdict$/);
      await shot(v.page, `${name}-verdict`);
      const text = await words(v.page);
      assert.match(text, /Made between about \d{4} and \d{4}/);
      assert.match(text, /Source: /);
      fine(v);
      await v.context.close();
    });

    test("a worn mark is typed into the hidden field, and a reload keeps all of it", async () => {
      const v = await visitor(size);
      await begin(v);
      await tap(v, (await findings(v.page))[0].text);
      if ((await findings(v.page)).length === 0) await tap(v, LEAVE);
      await openMark(v);
      assert.equal(await line(v.page), "field");
      await v.page.keyboard.type("MADE IN E");
      // A phone's keyboard writes words, not keys.
      await v.page.keyboard.sendCharacter("NGLND");
      await v.page.keyboard.press("Backspace");
      assert.match(await words(v.page), /MADE IN ENGLN/);
      await shot(v.page, `${name}-mark`);
      const before = await words(v.page);
      await v.page.reload();
      await begun(v.page);
      await openMark(v);
      assert.equal(await words(v.page), before);
      await v.page.keyboard.press("Enter");
      const seen = await words(v.page);
      assert.match(seen, /[2-9] findings/);
      await v.page.reload();
      await begun(v.page);
      const head = (text) => text.split("\n")[0];
      assert.equal(head(await words(v.page)), head(seen));
      fine(v);
      await v.context.close();
    });
  });
}

test("offline it begins again, and nothing is asked of the network after the first visit", async () => {
  const own = await serve();
  const v = await visit(browser, own.address, PHONE);
  await kept(v.page);
  const loaded = v.requests.length;
  for (const url of v.requests) assert.ok(url.startsWith(own.address), url);
  await begin(v);
  await tap(v, (await findings(v.page))[0].text);
  assert.deepEqual(v.requests.slice(loaded), []);
  const head = (await words(v.page)).split("\n")[0];
  await own.stop();
  await v.page.setOfflineMode(true);
  await v.page.reload();
  await begun(v.page);
  assert.equal((await words(v.page)).split("\n")[0], head);
  fine(v);
  await v.context.close();
});

test("the policy is in the page and in its headers, and stops what it does not name", async () => {
  const answer = await fetch(server.address);
  const header = answer.headers.get("content-security-policy");
  const page = await answer.text();
  for (const policy of [header, page]) {
    assert.match(policy, /default-src 'none'; script-src 'self' 'wasm-unsafe-eval';/);
    assert.doesNotMatch(policy, /unsafe-inline|'unsafe-eval'|https?:/);
  }
  assert.doesNotMatch(page, /<script(?![^>]*src=)|<style|\sstyle=|\son\w+=/);
  const v = await visitor(PHONE);
  await v.page.evaluate(() => fetch("https://example.invalid/").catch(() => {}));
  await v.page.evaluate(() => new Promise((then) => setTimeout(then, 50)));
  assert.ok(v.wrong.some((what) => what.startsWith("policy: connect-src")), v.wrong.join());
  await v.context.close();
});

test("opened as a file it says so in one sentence", async () => {
  const page = await browser.newPage();
  await page.goto(`file://${here("../out/index.html")}`);
  await page.waitForFunction(() => getComputedStyle(document.getElementById("waiting")).visibility === "visible");
  const text = await page.evaluate(() => document.body.innerText.trim());
  assert.match(text, /opened as a file/);
  assert.equal(text.split(/[.!?](\s|$)/).filter((s) => s?.trim()).length, 1, text);
  await page.close();
});

test("eight pieces are judged as on the command line", async () => {
  const program = process.env.PRINTSEAM ?? here("../../target/debug/printseam");
  const pieces = readdirSync(here("../../demo")).filter((name) => name.endsWith(".ron"));
  assert.equal(pieces.length, 8);
  const v = await visitor(PHONE);
  for (const name of pieces) {
    const file = here(`../../demo/${name}`);
    const told = JSON.parse(execFileSync(program, ["judge", file, "--json"]));
    const input = await v.page.$("#piece-file");
    await input.uploadFile(file);
    await v.page.waitForFunction(() => document.getElementById("piece-file").value === "");
    alike(JSON.parse(await menu(v.page, "verdict")), told, name);
  }
  fine(v);
  await v.context.close();
});

// The same keys and texts, numbers within a millionth.
function alike(here, there, place) {
  if (typeof there === "number") {
    assert.ok(Math.abs(here - there) <= 1e-6, `${place}: ${here}, ${there}`);
  } else if (there !== null && typeof there === "object") {
    assert.deepEqual(Object.keys(here), Object.keys(there), place);
    for (const key of Object.keys(there)) alike(here[key], there[key], `${place}.${key}`);
  } else {
    assert.equal(here, there, place);
  }
}

test("a consultation by the accessibility tree alone", async () => {
  const v = await visitor(PHONE);
  const session = await v.page.createCDPSession();
  const tree = async () => {
    const { nodes } = await session.send("Accessibility.getFullAXTree");
    const of = (node) => ({ role: node.role?.value, name: node.name?.value ?? "", id: node.backendDOMNodeId });
    return nodes.filter((node) => !node.ignored).map(of);
  };
  const named = (nodes, role) => nodes.filter((node) => node.role === role);
  // What a screen reader does with "activate".
  const press = async (node) => {
    const { object } = await session.send("DOM.resolveNode", { backendNodeId: node.id });
    await session.send("Runtime.callFunctionOn", { objectId: object.objectId, functionDeclaration: "function () { this.click(); }" });
  };
  const choose = async (name) => {
    const all = named(await tree(), "button");
    const found = all.find((node) => name.test(node.name));
    assert.ok(found, `no button ${name}: ${all.map((n) => n.name).join(" | ")}`);
    await press(found);
  };
  await choose(/^2 /);
  await choose(/start$/);
  let looks = 0;
  for (;;) {
    const nodes = await tree();
    const said = nodes.map((node) => node.name).join("\n");
    if (/see the whole verdict/.test(said)) break;
    assert.ok(looks < MOST_LOOKS, said);
    const headings = named(nodes, "heading").map((node) => node.name);
    assert.ok(headings.length >= 1, said);
    const findings = named(nodes, "button").filter((node) => /^\d+ /.test(node.name));
    const popup = named(nodes, "button").some((node) => LEAVE.test(node.name));
    if (popup) {
      await choose(LEAVE);
      continue;
    }
    if (findings.length === 0) {
      // A year is asked for, which this piece does not tell.
      await choose(/can't tell$/);
      looks += 1;
      continue;
    }
    await press(findings[findings.length > 1 ? 1 : 0]);
    looks += 1;
    // Reading goes on at the new question.
    const focus = await v.page.evaluate(() => document.activeElement.id);
    assert.ok(["asked", "field"].includes(focus), focus);
  }
  await choose(/see the whole verdict/);
  const verdict = (await tree()).filter((node) => node.role === "StaticText").map((node) => node.name).join(" ");
  assert.match(verdict, /Made between about \d{4} and \d{4}/);
  assert.doesNotMatch(verdict, /[\u2500-\u259f\u2800-\u28ff]/);
  fine(v);
  await v.context.close();
});

test("the keyboard alone is enough, and the menu's keys are its own", async () => {
  const v = await visitor(SIZES[2]);
  await v.page.keyboard.press("Enter");
  await v.page.keyboard.press("Escape");
  const question = await asked(v.page);
  // One of ten or more may be the first of two digits, and waits.
  const waits = (await findings(v.page)).length > 9;
  await v.page.keyboard.press("1");
  if (waits) await v.page.keyboard.press("Enter");
  assert.notEqual(await asked(v.page), question);
  const before = await words(v.page);
  await v.page.click("#open-menu");
  await v.page.keyboard.press("x");
  assert.equal(await words(v.page), before);
  await v.page.keyboard.press("Escape");
  assert.equal(await words(v.page), before);
  // A closed dialog hands the keys back a moment later.
  await v.page.waitForFunction(() => document.activeElement.id === "screen");
  await v.page.keyboard.press("u");
  assert.equal(await asked(v.page), question);
  fine(v);
  await v.context.close();
});

test("a stock book is kept, goes out and comes in", async () => {
  const v = await visitor(PHONE);
  await begin(v);
  await tap(v, (await findings(v.page))[0].text);
  for (const key of (await findings(v.page)).length === 0 ? ["Escape"] : []) await v.page.keyboard.press(key);
  await v.page.keyboard.press("+");
  await shot(v.page, "into-stock");
  await v.page.keyboard.press("Enter");
  const table = await menu(v.page, "export", true);
  const objects = JSON.parse(await menu(v.page, "export", false));
  assert.equal(objects.pieces.length, 1, table);
  await v.page.reload();
  await begun(v.page);
  assert.equal(await menu(v.page, "export", true), table);
  const other = await visitor(PHONE);
  const taken = await other.page.evaluate(async (text) => {
    const { menu } = await import("/start.js");
    return [1, 2].map(() => menu.import(new TextEncoder().encode(text)));
  }, table);
  assert.deepEqual(taken, ["Taken in: 1; 0 were there already.", "Taken in: 0; 1 were there already."]);
  assert.equal(await menu(other.page, "export", true), table);
  fine(v);
  fine(other);
  await v.context.close();
  await other.context.close();
});

test("one's own terms of selling are taken in, kept, and go out again", async () => {
  const v = await visitor(PHONE);
  const usual = await menu(v.page, "settings");
  assert.match(usual, /currency: "/);
  assert.match(await menu(v.page, "set_terms", "(format: 1)"), /^Nothing has changed: /);
  assert.equal(await menu(v.page, "settings"), usual);
  const own = usual.replace(/currency: "[A-Z]+"/, 'currency: "NZD"').replace(/name: "[^"]+"/, 'name: "Saturday stall"');
  assert.match(await menu(v.page, "set_terms", own), /^Amounts are in NZD now; sold at: Saturday stall, /);
  await v.page.reload();
  await begun(v.page);
  assert.equal(await menu(v.page, "settings"), own);
  await begin(v);
  while ((await findings(v.page)).length === 0) await v.page.keyboard.press("Escape");
  await v.page.keyboard.press("h");
  assert.doesNotMatch(await words(v.page), /shell/);
  await v.page.keyboard.press("Escape");
  await v.page.keyboard.press("v");
  await v.page.keyboard.press("b");
  await v.page.keyboard.type("12");
  await v.page.keyboard.press("Enter");
  await shot(v.page, "own-terms");
  assert.match(await words(v.page), /Saturday stall/);
  fine(v);
  await v.context.close();
});

test("the screens in words stand in place of the canvas, at any size of letters", async () => {
  const v = await visitor(PHONE);
  await v.page.click("#open-menu");
  await shot(v.page, "menu");
  await v.page.click("#as-words");
  await v.page.evaluate(() => { document.documentElement.style.fontSize = "200%"; });
  await shot(v.page, "words");
  const shown = await v.page.evaluate(() => ({
    canvas: document.getElementById("screen").getClientRects().length,
    wide: document.getElementById("words").getBoundingClientRect().width,
    over: document.documentElement.scrollWidth - innerWidth,
  }));
  assert.ok(shown.canvas === 0 && shown.wide > 300 && shown.over <= 0, JSON.stringify(shown));
  for (const step of [1, 2, 3]) {
    const button = await v.page.$("#words li:nth-child(2) button");
    await button.click();
    assert.ok(await asked(v.page), `step ${step}`);
  }
  assert.notEqual(await asked(v.page), "Where was the piece found?");
  await shot(v.page, "words-question");
  fine(v);
  await v.context.close();
});

test("a piece is kept as a file the program can open", async () => {
  const v = await visitor(PHONE);
  const session = await v.page.createCDPSession();
  const folder = mkdtempSync(join(tmpdir(), "printseam-"));
  await session.send("Browser.setDownloadBehavior", { behavior: "allow", downloadPath: folder, browserContextId: v.context.id });
  await begin(v);
  await tap(v, (await findings(v.page))[0].text);
  if ((await findings(v.page)).length === 0) await tap(v, LEAVE);
  const head = (await words(v.page)).split("\n")[0];
  await v.page.keyboard.press("k");
  await v.page.keyboard.press("Enter");
  let files = [];
  for (let waited = 0; files.length === 0 && waited < 100; waited += 1) {
    await new Promise((then) => setTimeout(then, 50));
    files = readdirSync(folder).filter((name) => name.endsWith(".ron"));
  }
  assert.equal(files.length, 1);
  const other = await visitor(PHONE);
  await (await other.page.$("#piece-file")).uploadFile(join(folder, files[0]));
  await other.page.waitForFunction((head) => document.getElementById("words").innerText.startsWith(head), {}, head);
  fine(v);
  fine(other);
  await v.context.close();
  await other.context.close();
});

test("letters and colours follow the system, and a pinch changes nothing", async () => {
  const v = await visitor(SIZES[2]);
  const rows = () => v.page.evaluate(() => getComputedStyle(document.getElementById("screen")).height);
  const columns = () => v.page.evaluate(() => document.getElementById("screen").getContext("2d").font);
  const usual = await columns();
  await v.page.evaluate(() => { document.documentElement.style.fontSize = "150%"; dispatchEvent(new Event("resize")); });
  assert.notEqual(await columns(), usual);
  await shot(v.page, "large-letters");
  await v.page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "light" }]);
  await v.page.waitForFunction(() => document.body.dataset.colours === "light");
  await shot(v.page, "light");
  const height = await rows();
  await v.page.evaluate(() => visualViewport.dispatchEvent(new Event("resize")));
  assert.equal(await rows(), height);
  const viewport = await v.page.evaluate(() => document.querySelector("meta[name=viewport]").content);
  assert.doesNotMatch(viewport, /user-scalable|maximum-scale/);
  fine(v);
  await v.context.close();
});
