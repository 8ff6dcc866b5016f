// A page in Debian's Chromium, and what the tests do with it.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import puppeteer from "puppeteer-core";

export const here = (path) => fileURLToPath(new URL(path, import.meta.url));

// Serves web/out on a port of its own; the address, and what ends it.
export async function serve() {
  const server = spawn("python3", [here("../serve.py"), here("../out"), "0"], { stdio: ["ignore", "pipe", "inherit"] });
  const [line] = await once(server.stdout, "data");
  const stop = async () => { server.kill(); await once(server, "exit"); };
  return { address: String(line).trim(), stop };
}

export function launch(...more) {
  const executablePath = ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find(existsSync);
  if (!executablePath) throw new Error("no Chromium here: apt-get install chromium");
  const args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", ...more];
  return puppeteer.launch({ executablePath, args, headless: true });
}

// A visitor: a page in a profile of its own, with all it asked for and all that went wrong.
export async function visit(browser, address, { width, height, finger = width < 800, density = 2, colours = "dark" }) {
  const context = await browser.createBrowserContext();
  const page = await context.newPage();
  await page.setViewport({ width, height, deviceScaleFactor: density, isMobile: finger, hasTouch: finger });
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: colours }]);
  const visitor = { page, context, finger, requests: [], wrong: [] };
  page.on("request", (request) => visitor.requests.push(request.url()));
  page.on("pageerror", (error) => visitor.wrong.push(String(error)));
  page.on("console", (message) => { if (message.type() === "error") visitor.wrong.push(message.text()); });
  await page.exposeFunction("violated", (what) => visitor.wrong.push(`policy: ${what}`));
  await page.evaluateOnNewDocument(() => {
    addEventListener("securitypolicyviolation", (event) => window.violated(`${event.violatedDirective} ${event.blockedURI}`));
  });
  await page.goto(address);
  await begun(page);
  return visitor;
}

export const begun = (page) => page.waitForFunction(
  () => !document.getElementById("waiting") && document.querySelector("#words button"), { timeout: 120_000 });

// After the first visit, when the service worker has fetched all it keeps.
export const kept = (page) => page.evaluate(async () => {
  await navigator.serviceWorker.ready;
  while (!navigator.serviceWorker.controller) await new Promise((then) => setTimeout(then, 20));
});

// What the screens say: lines, and buttons with their places.
export const words = (page) => page.evaluate(() => document.getElementById("words").innerText);
export const asked = (page) => page.evaluate(() => document.getElementById("asked")?.textContent ?? "");
export const buttons = (page) => page.evaluate(() =>
  [...document.querySelectorAll("#words button")].map((button) => ({ text: button.textContent, place: Number(button.dataset.place) })));

// Taps the canvas where it shows what the button of these words stands for.
export async function tap(visitor, text) {
  const { page } = visitor;
  let at = [];
  // What is further down comes into sight by a finger that is drawn over it.
  for (let drawn = 0; at.length === 0 && drawn < 12; drawn += 1) {
    if (drawn > 0) await drag(visitor);
    at = await placeOf(page, text);
  }
  if (at.length === 0) throw new Error(`'${text}' is not on the screen`);
  if (visitor.finger) await page.touchscreen.tap(...at); else await page.mouse.click(...at);
}

async function drag({ page, finger }) {
  const { width, height } = page.viewport();
  if (!finger) await page.mouse.move(width / 2, height / 2);
  if (!finger) return page.mouse.wheel({ deltaY: height / 2 });
  await page.touchscreen.touchStart(width / 2, height * 0.75);
  for (const share of [0.65, 0.55, 0.45]) await page.touchscreen.touchMove(width / 2, height * share);
  await page.touchscreen.touchEnd();
}

// The middle of the area that means what these words do; nothing where it is out of sight.
async function placeOf(page, text) {
  const all = await buttons(page);
  const found = all.find((button) => typeof text === "string" ? button.text === text : text.test(button.text));
  if (!found) throw new Error(`nothing says ${text}; there is: ${all.map((b) => b.text).join(" | ")}`);
  return page.evaluate(async (place) => {
    const { menu } = await import("/start.js");
    return [...menu.place_of(place)];
  }, found.place);
}

// What the page does for its menu: the verdict, the stock book out and in.
export const menu = (page, name, ...args) => page.evaluate(async (name, args) => {
  const { menu } = await import("/start.js");
  return menu[name](...args);
}, name, args);
