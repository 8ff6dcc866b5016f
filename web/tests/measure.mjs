// How long the first question takes on a slow processor: node measure.mjs [TIMES SLOWER] [VISITS]. Each visit
// is a first one, with nothing kept. Seconds from the start of loading until the question can be answered.
import { launch, serve } from "./browser.mjs";

const [slower = 4, visits = 5] = process.argv.slice(2).map(Number);
const server = await serve();
const browser = await launch();
const all = [];
for (let i = 0; i < visits; i += 1) {
  const context = await browser.createBrowserContext();
  const page = await context.newPage();
  await page.setViewport({ width: 412, height: 800, deviceScaleFactor: 2.625, isMobile: true, hasTouch: true });
  await page.emulateCPUThrottling(slower);
  await page.goto(server.address);
  await page.waitForFunction(() => performance.getEntriesByName("asked").length > 0);
  all.push(await page.evaluate(() => performance.getEntriesByName("asked")[0].startTime / 1000));
  await context.close();
}
await browser.close();
await server.stop();
all.sort((a, b) => a - b);
console.log(`processor ${slower} times slower, ${visits} visits: ${all.map((s) => s.toFixed(2)).join(" ")} s`);
