// Loads the program, hands it the menu, and has all of it kept for when there is no network.
import init, { begin } from "./printseam_web.js";
import { attach, offer } from "./menu.js";

await init();
export const menu = begin(offer);
attach(menu);
document.getElementById("waiting").remove();
performance.mark("asked");
// While the first question is read.
requestAnimationFrame(() => setTimeout(() => menu.make_ready()));
// The stock book should outlive a full disk; the browser decides.
navigator.storage?.persist?.();
if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("keep.js");
}
